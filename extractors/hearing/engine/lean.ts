// The model with the densities that a voice makes use of, and no others: most of a decode's time goes by the densities that each frame
// is held against.
import { codebooksOf } from "./definition.ts";
import { DENSITIES, GAUSSIANS, type Gaussians, STREAMS, WIDTH } from "./gaussians.ts";
import type { GaussianFiles } from "./model.ts";
import { numbersOf, parameterFile } from "./parameters.ts";

/**
 * Densities that are kept of the 128 of a codebook and stream. With 64 a decode takes a quarter to a third less time, and of 801
 * sentences in nine tuning voices 731 came out exact (736 with all), 3 wrong (4); with 48 it was eight fewer and two wrong more, with
 * 32 it was 714 and 3. Of a phone that was heard a minute of speech makes use of 65 to 90, the least used of which have 3 to 6 frames
 * in a hundred.
 */
const KEPT = 64;
/** Frames' worth of belief that a phone makes use of its densities as it does in the model's voices. */
const MODEL_PRIOR = 20;
/** States of a phone whatever its neighbours are; the model's first senones are theirs, phone by phone. */
const STATES = 3;

/** Of each codebook and stream (number `codebook * STREAMS + stream`) the densities that heard most of a voice, in their own order. */
export function mostUsed(frames: Float64Array, { weights }: Pick<Gaussians, "weights">): readonly (readonly number[])[] {
  return Array.from({ length: GAUSSIANS / DENSITIES }, (_, group) => {
    const [codebook, stream] = [Math.floor(group / STREAMS), group % STREAMS];
    const use = Array.from({ length: DENSITIES }, (__, density) => {
      let share = 0;
      for (let state = 0; state < STATES; state += 1)
        share += Math.exp(weights.log(stream, density, codebook * STATES + state)) / STATES;
      return (frames[group * DENSITIES + density] ?? 0) + MODEL_PRIOR * share;
    });
    const best = [...use.keys()].sort((one, other) => (use[other] ?? 0) - (use[one] ?? 0)).slice(0, KEPT);
    return best.sort((one, other) => one - other);
  });
}

/** The model's files with `means` and those densities that heard most of a voice: `frames` a Gaussian. */
export function leanFiles(gaussians: Gaussians, means: Float32Array, frames: Float64Array): GaussianFiles {
  const { files, weights } = gaussians;
  const kept = mostUsed(frames, gaussians);
  const ofKept = (numbers: Float32Array) => {
    const rows = new Float32Array(kept.length * KEPT * WIDTH);
    let to = 0;
    kept.forEach((densities, group) => {
      for (const density of densities) {
        const at = (group * DENSITIES + density) * WIDTH;
        rows.set(numbers.subarray(at, at + WIDTH), to);
        to += WIDTH;
      }
    });
    return rows;
  };
  const codebooks = codebooksOf(files.mdef);
  return {
    means: parameterFile(files.means, ofKept(means), KEPT),
    variances: parameterFile(files.variances, ofKept(numbersOf(files.variances, GAUSSIANS * WIDTH)), KEPT),
    sendump: weights.fileOf(KEPT, (stream, senone) => kept[(codebooks[senone] ?? 0) * STREAMS + stream] ?? []),
  };
}
