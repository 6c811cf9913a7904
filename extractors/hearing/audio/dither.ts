// Light white noise under the speech, always the same: the acoustic model was trained on telephone lines, not on digital silence.

/** How far below the speech the noise lies, dB. */
export const DITHER_DB = 27;

/** `pcm` with noise `decibels` below its mean power. `seed` makes another noise of the same level. */
export function dithered(pcm: Float32Array, decibels: number, seed: number): Float32Array {
  let power = 0;
  for (let i = 0; i < pcm.length; i += 1) power += (pcm[i] ?? 0) ** 2;
  // Uniform noise of half-width h has the power h²/3.
  const half = Math.sqrt((3 * power) / Math.max(1, pcm.length) / 10 ** (decibels / 10));
  const out = new Float32Array(pcm.length);
  let state = (seed * 2654435761 + 12345) >>> 0;
  for (let i = 0; i < pcm.length; i += 1) {
    state = (Math.imul(state, 1664525) + 1013904223) >>> 0;
    out[i] = (pcm[i] ?? 0) + (state / 2147483648 - 1) * half;
  }
  return out;
}
