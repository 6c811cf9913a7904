// Log energies of bands in, the numbers that the model's Gaussians are about out: liftered cepstra of 13 coefficients freed of
// their mean, and their first and second differences (the recogniser's feature type "1s_c_d_dd").
import { STREAMS, WIDTH } from "../engine/gaussians.ts";
import type { Spectrum } from "../engine/module.ts";

/** `frames` rows of `STREAMS * WIDTH` numbers. */
export interface Features {
  readonly frames: number;
  readonly values: Float32Array;
}

export const ROW = STREAMS * WIDTH;

/** Cepstra, `WIDTH` a frame: the orthonormal discrete cosine transform, liftered over `lifter` coefficients (0: not at all). */
export function cepstraOf({ data, nfr, nfeat }: Spectrum, lifter: number): Float32Array {
  const basis = Array.from({ length: WIDTH }, (_, i) => {
    const norm = Math.sqrt((i === 0 ? 1 : 2) / nfeat);
    const lift = lifter === 0 ? 1 : 1 + (lifter / 2) * Math.sin((i * Math.PI) / lifter);
    return Float64Array.from({ length: nfeat }, (__, j) => norm * lift * Math.cos(((i * Math.PI) / nfeat) * (j + 0.5)));
  });
  const cepstra = new Float32Array(nfr * WIDTH);
  for (let t = 0; t < nfr; t += 1) {
    const bands = data.subarray(t * nfeat, (t + 1) * nfeat);
    basis.forEach((wave, i) => {
      cepstra[t * WIDTH + i] = bands.reduce((sum, band, j) => sum + band * (wave[j] ?? 0), 0);
    });
  }
  return cepstra;
}

/** Features of a clip, by the model's setting of the lifter. */
export function featuresOf(spectrum: Spectrum, lifter: number): Features {
  const frames = spectrum.nfr;
  const cepstra = cepstraOf(spectrum, lifter);
  for (let i = 0; i < WIDTH; i += 1) {
    let mean = 0;
    for (let t = 0; t < frames; t += 1) mean += (cepstra[t * WIDTH + i] ?? 0) / frames;
    for (let t = 0; t < frames; t += 1) cepstra[t * WIDTH + i] = (cepstra[t * WIDTH + i] ?? 0) - mean;
  }
  const at = (t: number, i: number) => cepstra[Math.min(frames - 1, Math.max(0, t)) * WIDTH + i] ?? 0;
  const values = new Float32Array(frames * ROW);
  for (let t = 0; t < frames; t += 1)
    for (let i = 0; i < WIDTH; i += 1) {
      const row = t * ROW + i;
      values[row] = at(t, i);
      values[row + WIDTH] = at(t + 2, i) - at(t - 2, i);
      values[row + 2 * WIDTH] = at(t + 3, i) - at(t - 1, i) - (at(t + 1, i) - at(t - 3, i));
    }
  return { frames, values };
}
