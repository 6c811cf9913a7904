// Resampling against the closed form: a sine stays that sine, and what the new rate cannot hold is gone (sampling theorem).
import { describe, expect, it } from "vitest";
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
});
