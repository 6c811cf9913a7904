// Clips whose words are known in, what each Gaussian heard of them out: how many frames, and their sum.
import type { SoundState } from "../engine/decoder.ts";
import { codebookOf, DENSITIES, GAUSSIANS, type Mixtures, STREAMS, WIDTH } from "../engine/gaussians.ts";
import { type Features, ROW } from "./features.ts";

/** A Gaussian's part in a frame below this is left out. */
const LEAST_PART = 0.001;

export class VoiceStatistics {
  /** Frames a Gaussian had a part in, and their sum, `WIDTH` numbers a Gaussian. */
  readonly frames = new Float64Array(GAUSSIANS);
  readonly sums = new Float64Array(GAUSSIANS * WIDTH);

  /**
   * Add a clip: each frame goes to the densities of its state by their posterior probability under `mixtures`. The same clip with
   * noise under it, frame by frame in `noisy`, goes to where the clean one went (single-pass retraining on stereo data: Gales,
   * "Model-based techniques for noise robust speech recognition", Cambridge 1995; named from memory).
   */
  add({ frames, values }: Features, states: readonly SoundState[], mixtures: Mixtures, noisy: readonly Features[] = []): void {
    const heard = [values, ...noisy.map((features) => features.values)];
    const parts = new Float64Array(DENSITIES);
    for (const { phone, senone, from, to } of states) {
      const codebook = codebookOf(phone);
      if (codebook === undefined) continue;
      for (let t = from; t < Math.min(to, frames); t += 1)
        for (let stream = 0; stream < STREAMS; stream += 1) {
          const first = (codebook * STREAMS + stream) * DENSITIES;
          const rowOf = (of: Float32Array) => of.subarray(t * ROW + stream * WIDTH, t * ROW + (stream + 1) * WIDTH);
          posteriors(parts, rowOf(values), first, (density) => mixtures.logWeight(stream, density, senone), mixtures);
          for (const of of heard) this.#share(parts, rowOf(of), first);
        }
    }
  }

  #share(parts: Float64Array, row: Float32Array, first: number): void {
    parts.forEach((part, density) => {
      if (part < LEAST_PART) return;
      const gaussian = first + density;
      this.frames[gaussian] = (this.frames[gaussian] ?? 0) + part;
      for (let i = 0; i < WIDTH; i += 1) {
        const at = gaussian * WIDTH + i;
        this.sums[at] = (this.sums[at] ?? 0) + part * (row[i] ?? 0);
      }
    });
  }
}

/** Posterior probability of each density of a codebook that begins at Gaussian `first`, given one frame of its stream. */
function posteriors(
  parts: Float64Array,
  row: Float32Array,
  first: number,
  logWeight: (density: number) => number,
  { means, variances, logVariances }: Mixtures,
): void {
  for (let density = 0; density < DENSITIES; density += 1) {
    let log = logWeight(density) - 0.5 * (logVariances[first + density] ?? 0);
    const at = (first + density) * WIDTH;
    for (let i = 0; i < WIDTH; i += 1) log -= (0.5 * ((row[i] ?? 0) - (means[at + i] ?? 0)) ** 2) / (variances[at + i] ?? 1);
    parts[density] = log;
  }
  const most = parts.reduce((kept, log) => Math.max(kept, log), Number.NEGATIVE_INFINITY);
  let total = 0;
  for (let density = 0; density < DENSITIES; density += 1) total += parts[density] = Math.exp((parts[density] ?? 0) - most);
  for (let density = 0; density < DENSITIES; density += 1) parts[density] = (parts[density] ?? 0) / total;
}
