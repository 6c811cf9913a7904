// How number words sound, in the phones of the CMU set (ARPAbet without stress). Several lines where people differ.
import { plainWord } from "./plain-word.ts";
import type { Pronunciations } from "./types.ts";

export const NUMBER_WORDS: Pronunciations = {
  zero: ["Z IH R OW", "Z IY R OW"],
  oh: ["OW"],
  naught: ["N AO T"],
  one: ["W AH N"],
  two: ["T UW"],
  three: ["TH R IY"],
  four: ["F AO R"],
  five: ["F AY V"],
  six: ["S IH K S"],
  seven: ["S EH V AH N"],
  eight: ["EY T"],
  nine: ["N AY N"],
  ten: ["T EH N"],
  eleven: ["IH L EH V AH N", "IY L EH V AH N"],
  twelve: ["T W EH L V"],
  thirteen: ["TH ER T IY N"],
  fourteen: ["F AO R T IY N"],
  fifteen: ["F IH F T IY N"],
  sixteen: ["S IH K S T IY N"],
  seventeen: ["S EH V AH N T IY N"],
  eighteen: ["EY T IY N"],
  nineteen: ["N AY N T IY N"],
  twenty: ["T W EH N T IY", "T W EH N IY"],
  thirty: ["TH ER T IY", "TH ER D IY"],
  forty: ["F AO R T IY", "F AO R D IY"],
  fifty: ["F IH F T IY"],
  sixty: ["S IH K S T IY"],
  seventy: ["S EH V AH N T IY", "S EH V AH N D IY"],
  eighty: ["EY T IY", "EY D IY"],
  ninety: ["N AY N T IY", "N AY N D IY"],
  hundred: ["HH AH N D R AH D", "HH AH N D ER D"],
  thousand: ["TH AW Z AH N D", "TH AW Z AH N"],
  and: ["AE N D", "AH N D", "AH N", "AE N"],
  a: ["AH", "EY"],
  point: ["P OY N T"],
  double: ["D AH B AH L"],
  half: ["HH AE F", "HH AA F"],
  quarter: ["K W AO R T ER", "K AO R T ER"],
  quarters: ["K W AO R T ER Z", "K AO R T ER Z"],
  eighth: ["EY T TH", "EY TH"],
  eighths: ["EY T TH S", "EY TH S", "EY T S"],
  // The last sound is often lost.
  sixteenth: ["S IH K S T IY N TH", "S IH K S T IY N"],
  sixteenths: ["S IH K S T IY N TH S", "S IH K S T IY N S"],
  second: ["S EH K AH N D", "S EH K AH N"],
  minus: ["M AY N AH S"],
  plus: ["P L AH S"],
  // Who has not grown up with the word may say it as "thou art".
  thou: ["TH AW", "DH AW"],
  thousandth: ["TH AW Z AH N D TH", "TH AW Z AH N TH"],
  thousandths: ["TH AW Z AH N D TH S", "TH AW Z AH N TH S", "TH AW Z AH N S"],
  tenth: ["T EH N TH"],
  tenths: ["T EH N TH S", "T EH N S", "T EH N T S"],
  hundredths: ["HH AH N D R AH D TH S", "HH AH N D R AH TH S", "HH AH N D ER D TH S"],
};

/** 0 to 9, 10 to 19 and the tens from 20, as said. */
export const DIGITS = ["zero", "one", "two", "three", "four", "five", "six", "seven", "eight", "nine"] as const;
export const ONE_TO_NINE: ReadonlySet<string> = new Set(DIGITS.slice(1));
export const TEENS = [
  "ten",
  "eleven",
  "twelve",
  "thirteen",
  "fourteen",
  "fifteen",
  "sixteen",
  "seventeen",
  "eighteen",
  "nineteen",
] as const;
export const TENS = ["twenty", "thirty", "forty", "fifty", "sixty", "seventy", "eighty", "ninety"] as const;

const IN_NUMBERS: ReadonlySet<string> = new Set([...DIGITS, ...TEENS, ...TENS, "oh", "hundred", "double"]);

/** Whether `word` (role mark or not) is part of a spoken number. */
export const isNumberWord = (word: string): boolean => IN_NUMBERS.has(plainWord(word));
