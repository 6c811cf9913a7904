// How wide a decoder searches.

/** How much less likely than the best what is kept may be, in sounds, at their ends and at the ends of words; and how much is kept. */
export interface Search {
  readonly beam: number;
  readonly pbeam: number;
  readonly wbeam: number;
  readonly maxhmmpf: number;
}

/** The library's settings: for a stranger amid blows, and where states of known words are looked for. */
export const WIDE: Search = { beam: 1e-64, pbeam: 1e-64, wbeam: 1e-40, maxhmmpf: 2500 };

/**
 * For words in an order, in a voice that the model is fitted to. A look takes a quarter less time than by `WIDE`, and finds more: what any
 * speech would be is cheap in noise, and given up sooner by this. Of 747 tuning sentences in pink noise at 10 dB 447 came out exact and two
 * wrong (435 and two by `WIDE`), of 378 in hum at 5 dB 263 (245), in quiet 331 (327).
 */
export const NARROW: Search = { ...WIDE, beam: 1e-40, pbeam: 1e-40, wbeam: 1e-25 };

/**
 * The same amid blows, each of which makes what was said dear for as long as it rings: of nine tuning voices' 216 sentences under blows at
 * 10 dB 164 came out exact and none wrong (158 and two by `NARROW`, which gave eight more up altogether; 158 and none by `WIDE`). And for
 * words in any order, where what is kept may go on as anything: of 288 sentences that are hard to name, in pink noise at 10 dB, 256 were
 * named rightly, 245 by `NARROW`.
 */
export const PATIENT: Search = { ...WIDE, beam: 1e-48, pbeam: 1e-48, wbeam: 1e-30 };

/**
 * For a stranger's words in an order: of 252 tuning sentences 206 came out exact and 4 wrong, 208 and 3 by `PATIENT` and 195 and 3 by
 * `WIDE`, in 0.137, 0.123 and 0.171 s a second. By `PATIENT` a sentence about another thing than what is open may be seen first as one that
 * it is not.
 */
export const UNHURRIED: Search = { ...PATIENT, wbeam: WIDE.wbeam };
