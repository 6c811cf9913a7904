// What is shown of a sentence before the ear is done with it.
import { describe, expect, it } from "vitest";
import { clipOf, glimpse } from "../../../extractors/hearing/heard.ts";
import { passOf } from "./passes.ts";

const clip = clipOf(new Float32Array(16_000), 16_000);

const pass = (text: string, costRate: number, plain = true) => passOf(text, { warp: 0.94, plain }, costRate);

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
