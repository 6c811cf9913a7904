// How wide a decoder searches.

/** The library's settings: how much less likely than the best what is kept may be, in sounds, at their ends and at the ends of words. */
export interface Search {
  readonly beam: number;
  readonly pbeam: number;
  readonly wbeam: number;
  readonly maxhmmpf: number;
}

/** Most of such a decode's time goes by the grammar's size, so that a narrow beam would only lose sentences. */
export const WIDE: Search = { beam: 1e-64, pbeam: 1e-64, wbeam: 1e-40, maxhmmpf: 2500 };

/**
 * For words in any order, of which each may follow at any time: there the time goes by what is kept. Of 252 sentences in nine tuning voices
 * that are hard to name, in pink noise at 10 dB, 236 were named rightly by this at 0.035 s a second, by the wide beams 237 at 0.047, by
 * beams of 1e-30 and 1e-20 222 at 0.026; under blows at 10 dB 230 at 0.030, 240 at 0.039 and 198 at 0.023.
 */
export const NARROW: Search = { ...WIDE, beam: 1e-48, pbeam: 1e-48, wbeam: 1e-30 };
