// How wide a decoder searches.

/** How much less likely than the best what is kept may be, in sounds, at their ends and at the ends of words; and how much is kept. */
export interface Search {
  readonly beam: number;
  readonly pbeam: number;
  readonly wbeam: number;
  readonly maxhmmpf: number;
}

/**
 * The library's settings: for words that are known, what they cost and where their states lie; and where a stranger's talk may be taken for
 * a sentence: of 342 sentences of talk about the trade by strangers, nine tuning voices, 213 came to nothing for the book and no figure
 * counted (185, and one, by beams of 1e-48).
 */
export const WIDE: Search = { beam: 1e-64, pbeam: 1e-64, wbeam: 1e-40, maxhmmpf: 2500 };

/**
 * For what is said. A look takes at least an eighth less time than by `WIDE`, and finds more, because what any speech would be is cheap,
 * and given up sooner by this. Of nine tuning voices' 216 sentences under blows at 10 dB 166 came out exact and none wrong (158 and none by
 * `WIDE`), of 252 of strangers, by this for what sounds like them, 203 and two (195 and three). For words in any order, too, where what is
 * kept may go on as anything: of 288 sentences that are hard to name, in pink noise at 10 dB, 256 were named rightly (245 by `NARROW`).
 */
export const PATIENT: Search = { ...WIDE, beam: 1e-48, pbeam: 1e-48, wbeam: 1e-30 };

/**
 * For steady noise, in a voice that the model is fitted to: a quarter less time than by `WIDE`. Of 747 tuning sentences in pink noise at
 * 10 dB 447 came out exact and two wrong (435 and two by `WIDE`), of 378 in hum at 5 dB 263 (245). Not amid blows, each of which makes
 * what was said dear for as long as it rings: of the 216 sentences eight more were given up altogether, and two were wrong.
 */
export const NARROW: Search = { ...WIDE, beam: 1e-40, pbeam: 1e-40, wbeam: 1e-25 };
