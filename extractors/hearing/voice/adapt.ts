// What the Gaussians heard of a voice in, means fitted to it out. First all of them are moved together by one affine transform a
// stream (maximum likelihood linear regression: Leggetter and Woodland, Computer Speech and Language 9, 1995), which carries
// over to sounds that were not heard; then those that were heard move on towards what they heard (maximum a posteriori: Gauvain
// and Lee, IEEE Trans. Speech and Audio Processing 2, 1994).
import { CholeskyDecomposition, Matrix } from "ml-matrix";
import { DENSITIES, GAUSSIANS, type Gaussians, isPhone, STREAMS, WIDTH } from "../engine/gaussians.ts";
import type { VoiceStatistics } from "./statistics.ts";

/** Frames' worth of belief that a voice is as the model has it: little speech moves the transform little. */
const TRANSFORM_PRIOR = 50;
/** Frames' worth of belief in the transformed mean of one Gaussian. */
const MEAN_PRIOR = 4;

/** Of a number of the features, by the model. */
const TYPICAL_VARIANCE = 150;

/** One row of a stream's transform: offset, then a factor for each number of the mean. */
type Row = readonly number[];

/** The transform of each stream, a row for each number of a mean. */
export type Transform = readonly (readonly Row[])[];

const streamOf = (gaussian: number) => Math.floor(gaussian / DENSITIES) % STREAMS;

const SIZE = WIDTH + 1;

/** A Gaussian of a phone, not of silence or a noise, which are as they are whoever speaks. */
const ofVoice = (gaussian: number) => isPhone(Math.floor(gaussian / (STREAMS * DENSITIES)));

/** The row's factors under which what one stream's Gaussians heard is likeliest, held near the identity by a prior. */
function rowFor({ frames, sums }: VoiceStatistics, { means, variances }: Gaussians, stream: number, row: number): Row {
  const left = new Float64Array(SIZE * SIZE);
  const right = new Float64Array(SIZE);
  const extended = new Float64Array(SIZE).fill(1);
  for (let gaussian = 0; gaussian < GAUSSIANS; gaussian += 1) {
    const heard = frames[gaussian] ?? 0;
    if (heard === 0 || streamOf(gaussian) !== stream) continue;
    const at = gaussian * WIDTH;
    extended.set(means.subarray(at, at + WIDTH), 1);
    const weight = 1 / (variances[at + row] ?? 1);
    const sum = weight * (sums[at + row] ?? 0);
    for (let i = 0; i < SIZE; i += 1) {
      const one = extended[i] ?? 0;
      right[i] = (right[i] ?? 0) + sum * one;
      for (let j = 0; j < SIZE; j += 1)
        left[i * SIZE + j] = (left[i * SIZE + j] ?? 0) + weight * heard * (one * (extended[j] ?? 0));
    }
  }
  // Means spread about as far as their variance is wide, so that one frame weighs about one on each factor.
  for (let i = 0; i < SIZE; i += 1)
    left[i * SIZE + i] = (left[i * SIZE + i] ?? 0) + (i === 0 ? TRANSFORM_PRIOR / TYPICAL_VARIANCE : TRANSFORM_PRIOR);
  right[row + 1] = (right[row + 1] ?? 0) + TRANSFORM_PRIOR;
  const solved = new CholeskyDecomposition(Matrix.from1DArray(SIZE, SIZE, left)).solve(Matrix.columnVector(right));
  return solved.to1DArray();
}

/** The transform under which `statistics` are likeliest, held near the identity by a prior. */
export function transformFor(statistics: VoiceStatistics, gaussians: Gaussians): Transform {
  return Array.from({ length: STREAMS }, (_, stream) =>
    Array.from({ length: WIDTH }, (__, row) => rowFor(statistics, gaussians, stream, row)),
  );
}

/** The means of `gaussians` fitted to a voice. */
export function fittedMeans(statistics: VoiceStatistics, gaussians: Gaussians): Float32Array {
  const transform = transformFor(statistics, gaussians);
  const fitted = gaussians.means.slice();
  for (let gaussian = 0; gaussian < GAUSSIANS; gaussian += 1) {
    if (!ofVoice(gaussian)) continue;
    const at = gaussian * WIDTH;
    const mean = gaussians.means.subarray(at, at + WIDTH);
    const heard = statistics.frames[gaussian] ?? 0;
    (transform[streamOf(gaussian)] ?? []).forEach(([offset = 0, ...factors], row) => {
      const moved = factors.reduce((sum, factor, i) => sum + factor * (mean[i] ?? 0), offset);
      fitted[at + row] = (MEAN_PRIOR * moved + (statistics.sums[at + row] ?? 0)) / (MEAN_PRIOR + heard);
    });
  }
  return fitted;
}
