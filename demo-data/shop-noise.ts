// Seeded noise of a workshop, made and not recorded: the same seed gives the same samples on every machine.

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

export type NoiseKind = "pink" | "hum" | "impact" | "compressor" | "fan";

function pink(length: number, random: () => number): Float32Array {
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

function hum(length: number, rate: number, random: () => number): Float32Array {
  const out = new Float32Array(length);
  const phases = Array.from({ length: 8 }, () => random() * 2 * Math.PI);
  for (let i = 0; i < length; i += 1) {
    let sum = 0;
    phases.forEach((phase, k) => {
      sum += Math.sin((2 * Math.PI * 60 * (k + 1) * i) / rate + phase) / (k + 1);
    });
    out[i] = sum + (random() - 0.5) * 0.05;
  }
  return out;
}

function impact(length: number, rate: number, random: () => number): Float32Array {
  const out = new Float32Array(length);
  let at = Math.floor(random() * rate * 0.3);
  while (at < length) {
    const pitch = 600 + random() * 2400;
    const decay = 0.02 + random() * 0.06;
    for (let i = 0; i < rate * decay * 5 && at + i < length; i += 1) {
      const envelope = Math.exp(-i / (rate * decay));
      out[at + i] = (out[at + i] ?? 0) + envelope * (Math.sin((2 * Math.PI * pitch * i) / rate) + (random() - 0.5));
    }
    at += Math.floor(rate * (0.25 + random() * 0.9));
  }
  return out;
}

function sum(parts: readonly (readonly [Float32Array, number])[]): Float32Array {
  const out = new Float32Array(parts[0]?.[0].length ?? 0);
  for (const [part, gain] of parts) for (let i = 0; i < out.length; i += 1) out[i] = (out[i] ?? 0) + (part[i] ?? 0) * gain;
  return out;
}

/** `length` samples of noise at `rate`, of no particular level. */
export function shopNoise(kind: NoiseKind, length: number, rate: number, seed: number): Float32Array {
  const random = seeded(seed);
  if (kind === "pink") return pink(length, random);
  if (kind === "hum") return hum(length, rate, random);
  if (kind === "impact") return impact(length, rate, random);
  if (kind === "fan")
    return sum([
      [pink(length, random), 1],
      [hum(length, rate, random), 0.15],
    ]);
  return sum([
    [hum(length, rate, random), 1],
    [pink(length, random), 0.5],
    [impact(length, rate, random), 0.3],
  ]);
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
