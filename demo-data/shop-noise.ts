// Seeded noise of a workshop, made and not recorded: the same seed gives the same samples on every machine.
import { pinkNoise, seeded } from "../extractors/hearing/audio/noise.ts";

export type NoiseKind = "pink" | "hum" | "impact" | "compressor" | "fan";

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
  if (kind === "pink") return pinkNoise(length, random);
  if (kind === "hum") return hum(length, rate, random);
  if (kind === "impact") return impact(length, rate, random);
  if (kind === "fan")
    return sum([
      [pinkNoise(length, random), 1],
      [hum(length, rate, random), 0.15],
    ]);
  return sum([
    [hum(length, rate, random), 1],
    [pinkNoise(length, random), 0.5],
    [impact(length, rate, random), 0.3],
  ]);
}
