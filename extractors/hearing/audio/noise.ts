// Noise that is made, the same for the same seed, and its mixing with sound at a given level.

/** Mulberry32: a small seeded generator of numbers 0..1. Source: public domain, Tommy Ettinger (2017). */
export function seeded(seed: number): () => number {
  let state = seed >>> 0;
  return () => {
    state = (state + 0x6d2b79f5) >>> 0;
    let t = state;
    t = Math.imul(t ^ (t >>> 15), t | 1);
    t ^= t + Math.imul(t ^ (t >>> 7), t | 61);
    return ((t ^ (t >>> 14)) >>> 0) / 4294967296;
  };
}

/** `length` samples of noise with equal power in every octave, of no particular level. `random` gives 0..1. */
export function pinkNoise(length: number, random: () => number): Float32Array {
  // Voss's sum of halving-rate sources, here as leaky integrators of spaced poles (Kellet's filter coefficients).
  const out = new Float32Array(length);
  const b = [0, 0, 0];
  for (let i = 0; i < length; i += 1) {
    const white = random() * 2 - 1;
    b[0] = 0.99765 * (b[0] ?? 0) + white * 0.099046;
    b[1] = 0.963 * (b[1] ?? 0) + white * 0.2965164;
    b[2] = 0.57 * (b[2] ?? 0) + white * 1.0526913;
    out[i] = (b[0] ?? 0) + (b[1] ?? 0) + (b[2] ?? 0) + white * 0.1848;
  }
  return out;
}

const power = (pcm: Float32Array) => {
  let total = 0;
  for (const sample of pcm) total += sample * sample;
  return total / Math.max(1, pcm.length);
};

/** Add `noise` to `pcm` at a signal-to-noise ratio of `decibels`, both powers taken over the whole clip. */
export function mixAt(pcm: Float32Array, noise: Float32Array, decibels: number): Float32Array {
  const gain = Math.sqrt(power(pcm) / Math.max(1e-12, power(noise)) / 10 ** (decibels / 10));
  return pcm.map((sample, index) => sample + (noise[index] ?? 0) * gain);
}
