// How closely a decoder holds the frames of a sound against the model's densities: half of a decode's time goes by that.

/** The library's setting, and what it does to the costs. */
export interface Scoring {
  /** How many densities of a phone and stream count in a frame: the best ones. */
  readonly topn: number;
  /** How much dearer the words of a sentence are by this than by `CLOSE`. */
  readonly dearer: number;
}

/** As the model is meant to be used. */
export const CLOSE: Scoring = { topn: 4, dearer: 1 };

/**
 * For a voice that the model is fitted to: an eighth less time. In 120 of 123 looks in nine tuning voices the words were the same, 1.083
 * times as dear by the median (1.033 to 1.145 in eight of ten). Of 801 sentences 759 came out exact and 2 wrong (756 and 3 by `CLOSE`),
 * in pink noise at 10 dB 178 of 270 (181), but of strangers' 112 of 207 (129). To try the densities in every second frame only (the
 * library's `ds`) would take another eighth, but sentences that were right then wait for a yes.
 */
export const LIGHT: Scoring = { topn: 2, dearer: 1.083 };
