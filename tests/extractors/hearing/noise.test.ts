// Made noise against what its name means: pink noise has the same power in every octave, and a mix has the ratio it was asked for.
import { describe, expect, it } from "vitest";
import { mixAt, pinkNoise, seeded } from "../../../extractors/hearing/audio/noise.ts";

const RATE = 16_000;
const SECONDS = 2;
const OCTAVES = [125, 250, 500, 1000, 2000];

/** Power between two frequencies, Hz, by the discrete Fourier transform over frames of a quarter second. */
function bandPower(pcm: Float32Array, from: number, to: number): number {
  const size = RATE / 4;
  let power = 0;
  for (let start = 0; start + size <= pcm.length; start += size)
    for (let bin = Math.ceil((from * size) / RATE); bin < (to * size) / RATE; bin += 1) {
      let [re, im] = [0, 0];
      for (let i = 0; i < size; i += 1) {
        const angle = (2 * Math.PI * bin * i) / size;
        re += (pcm[start + i] ?? 0) * Math.cos(angle);
        im += (pcm[start + i] ?? 0) * Math.sin(angle);
      }
      power += re * re + im * im;
    }
  return power;
}

const powerOf = (pcm: Float32Array) => pcm.reduce((sum, sample) => sum + sample * sample, 0) / pcm.length;

describe("noise", () => {
  it("called pink has the same power in every octave, within 2 dB", () => {
    const pcm = pinkNoise(RATE * SECONDS, seeded(7));
    const powers = OCTAVES.map((from) => 10 * Math.log10(bandPower(pcm, from, 2 * from)));
    expect(Math.max(...powers) - Math.min(...powers)).toBeLessThan(2);
  });

  it.each([20, 10, 0, -3])("is mixed in %i dB below the sound", (decibels) => {
    const pcm = Float32Array.from({ length: RATE }, (_, i) => Math.sin(i / 9) * 0.3);
    const mixed = mixAt(pcm, pinkNoise(pcm.length, seeded(1)), decibels);
    const noise = mixed.map((sample, i) => sample - (pcm[i] ?? 0));
    expect(10 * Math.log10(powerOf(pcm) / powerOf(noise))).toBeCloseTo(decibels, 3);
  });

  it("is the same for the same seed, and another for another", () => {
    expect(pinkNoise(100, seeded(3))).toEqual(pinkNoise(100, seeded(3)));
    expect(pinkNoise(100, seeded(4))).not.toEqual(pinkNoise(100, seeded(3)));
  });
});
