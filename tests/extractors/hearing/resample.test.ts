// Resampling against the closed form: a sine stays that sine, and what the new rate cannot hold is gone (sampling theorem).
import { describe, expect, it } from "vitest";
import { FINE, type Kernel, QUICK, ROUGH } from "../../../extractors/hearing/audio/resample.ts";
import { resample } from "../../../extractors/hearing/index.ts";

const sine = (hertz: number, rate: number, seconds: number) =>
  Float32Array.from({ length: Math.round(rate * seconds) }, (_, i) => 0.5 * Math.sin((2 * Math.PI * hertz * i) / rate));

/** Largest difference from the ideal sine, the edges left out where the kernel runs over the end. */
function error(pcm: Float32Array, hertz: number, rate: number): number {
  let worst = 0;
  for (let i = 200; i < pcm.length - 200; i += 1)
    worst = Math.max(worst, Math.abs((pcm[i] ?? 0) - 0.5 * Math.sin((2 * Math.PI * hertz * i) / rate)));
  return worst;
}

/** The level of a tone beside that of `sine`, dB, the edges left out. */
function decibelsOf(pcm: Float32Array): number {
  const middle = pcm.subarray(200, -200);
  const power = middle.reduce((sum, sample) => sum + sample * sample, 0) / middle.length;
  return 10 * Math.log10(power / 0.125);
}

describe("resample", () => {
  it.each([
    [8000, 16000],
    [11025, 16000],
    [22050, 16000],
    [44100, 16000],
    [48000, 16000],
    [96000, 16000],
    [15200, 16000],
  ])("keeps a 1 kHz tone from %i to %i", (from, to) => {
    const out = resample(sine(1000, from, 0.5), from, to);
    expect(Math.abs(out.length - to * 0.5)).toBeLessThanOrEqual(1);
    expect(error(out, 1000, to)).toBeLessThan(0.002);
  });

  it("takes out what would fold back", () => {
    const out = resample(sine(11000, 48000, 0.5), 48000, 16000);
    expect(Math.max(...out.subarray(200, -200).map(Math.abs))).toBeLessThan(0.001);
  });

  // What the kernels are said to do, at their edges: up to 84 % of the Nyquist limit, and from so much above it on.
  it.each<[string, Kernel, number, number, number]>([
    ["fine", FINE, 0.1, 1.125, 85],
    ["quick", QUICK, 0.6, 1.19, 50],
    ["rough", ROUGH, 2, 1.25, 37],
  ])("keeps what the new rate holds and takes out the rest by a %s kernel", (_name, kernel, lost, above, down) => {
    const heldAt = (hertz: number) => decibelsOf(resample(sine(hertz, 48000, 0.5), 48000, 16000, kernel));
    for (const hertz of [100, 1000, 4000, 0.82 * 8000]) expect(Math.abs(heldAt(hertz))).toBeLessThan(lost);
    for (const hertz of [above * 8000, 12000, 20000]) expect(heldAt(hertz)).toBeLessThan(-down);
  });
});
