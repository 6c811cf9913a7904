// How a clip is cut, and what is shown of a sentence before the ear is done with it.
import { describe, expect, it } from "vitest";
import { MARGIN, MARGIN_IF_FITTED } from "../../../extractors/hearing/audio/level.ts";
import { clipOf, glimpse } from "../../../extractors/hearing/heard.ts";
import { passOf } from "./passes.ts";

const clip = clipOf(new Float32Array(16_000), 16_000);

const pass = (text: string, costRate: number, plain = true) => passOf(text, { warp: 0.94, plain }, costRate);

describe("a clip", () => {
  const RATE = 16_000;
  /** A tone of half a second, from the first second on, in two seconds of faint noise. */
  const spoken = Float32Array.from({ length: 2 * RATE }, (_, at) => {
    const loud = at >= RATE && at < 1.5 * RATE;
    return (loud ? 0.3 * Math.sin((2 * Math.PI * 300 * at) / RATE) : 0) + 0.001 * Math.sin(at * 12.9898);
  });

  it.each([
    ["a voice that is fitted", MARGIN_IF_FITTED],
    ["any other", MARGIN],
  ])("is cut to what was said and a margin around it, of %s", (_, margin) => {
    const { levels, pcm, seconds } = clipOf(spoken, RATE, margin);
    expect(levels.from / RATE).toBeCloseTo(1 - margin, 1);
    expect(levels.to / RATE).toBeCloseTo(1.5 + margin, 1);
    expect(pcm).toHaveLength(levels.to - levels.from);
    expect(seconds).toBe(2);
  });

  it("keeps less around it where the voice is fitted", () => {
    expect(MARGIN_IF_FITTED).toBeLessThan(MARGIN);
  });

  it("is the whole of it where nothing stands out", () => {
    expect(clipOf(new Float32Array(RATE), RATE).pcm).toHaveLength(RATE);
  });
});

describe("a glimpse of a sentence from the first of several looks", () => {
  it.each([
    ["what fits", pass("two thou", 200), "two thou"],
    ["not what fits badly: another scale may show better", pass("two thou", 400), undefined],
    ["not what would be asked about", pass("two inches", 200, false), undefined],
    ["not a sentence about something else, whose rest is any speech", pass("ring gap +t +uw", 200), undefined],
  ] as const)("shows %s", (_what, seen, text) => {
    expect(glimpse(seen, clip)?.text).toBe(text);
  });

  it("is in doubt by its nature", () => {
    expect(glimpse(pass("two thou", 200), clip)).toMatchObject({ verdict: "doubtful", warp: 0.94 });
  });
});
