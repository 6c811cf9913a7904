// The phones that the acoustic network tells apart, in the order of its labels. Label 0 is the blank of CTC.

/** The CMU set (ARPAbet without stress). */
export const PHONES: readonly string[] =
  "AA AE AH AO AW AY B CH D DH EH ER EY F G HH IH IY JH K L M N NG OW OY P R S SH T TH UH UW V W Y Z ZH".split(" ");

export const LABEL_OF: ReadonlyMap<string, number> = new Map(PHONES.map((phone, index) => [phone, index + 1]));
