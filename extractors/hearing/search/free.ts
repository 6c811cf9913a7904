// Posteriors in, the best string of phones that any speech may be out.
import type { Posteriors } from "../acoustic/posteriors.ts";

export interface FreeSpeech {
  /** Log score of the likeliest label of each frame. */
  readonly score: number;
  /** Phones in a row, repeats of one phone counted once. */
  readonly phones: number;
  /** Frames from the first phone to the last, both counted; at least one. */
  readonly frames: number;
}

export function freeSpeech({ values, frames, labels }: Posteriors): FreeSpeech {
  let score = 0;
  let phones = 0;
  let first = -1;
  let last = -1;
  let before = 0;
  for (let frame = 0; frame < frames; frame += 1) {
    let best = 0;
    for (let label = 1; label < labels; label += 1)
      if ((values[frame * labels + label] ?? 0) > (values[frame * labels + best] ?? 0)) best = label;
    score += values[frame * labels + best] ?? 0;
    if (best !== 0 && best !== before) phones += 1;
    if (best !== 0) {
      if (first < 0) first = frame;
      last = frame;
    }
    before = best;
  }
  return { score, phones, frames: Math.max(1, last - first + 1) };
}
