// Whether what was heard first is gone by, or what the sentence is about in outline is asked. Figures of the sentences below are made by hand.
import { describe, expect, it } from "vitest";
import { isSettled, laterIfBetter } from "../../../extractors/hearing/doubt/settled.ts";
import { nothing } from "../../../extractors/hearing/heard.ts";
import type { Heard, HeardVerdict } from "../../../extractors/hearing/types.ts";

const heard = (verdict: HeardVerdict, strangeness: number): Heard => {
  const none = nothing(2, 30, 1);
  return { ...none, verdict, text: verdict === "nothing" ? "" : "two top, twelve thou", doubt: { ...none.doubt, strangeness } };
};

describe("a hearing", () => {
  it.each([
    ["that counts settles a sentence", "ok", 400, false, true],
    ["too loud to be trusted does", "too_loud", 0, true, true],
    ["of nothing does not", "nothing", 0, true, false],
    ["that is asked about does where it fits well", "doubtful", 240, false, true],
    ["that is asked about does not where it fits less well", "doubtful", 260, false, false],
    ["that is asked about does then in noise, where all cost more", "doubtful", 300, true, true],
    ["that is asked about does not where it fits badly in noise too", "doubtful", 320, true, false],
  ] as const)("%s", (_what, verdict, strangeness, noisy, settles) => {
    expect(isSettled(heard(verdict, strangeness), noisy)).toBe(settles);
  });

  it("of what a sentence is about in outline is gone by only where it counts and fits clearly better", () => {
    const near = heard("doubtful", 330);
    const better = heard("ok", 300);
    expect(laterIfBetter(near, better, false)).toBe(better);
    expect(laterIfBetter(near, heard("ok", 320), false)).toBe(near);
    expect(laterIfBetter(near, heard("doubtful", 300), false)).toBe(near);
    const lost = heard("nothing", 0);
    expect(laterIfBetter(lost, heard("doubtful", 390), false).verdict).toBe("doubtful");
  });

  it("is gone by after another guess where it fits clearly better, though it is asked about too", () => {
    const guess = heard("doubtful", 360);
    const better = heard("doubtful", 300);
    expect(laterIfBetter(guess, better, true)).toBe(better);
    expect(laterIfBetter(guess, heard("doubtful", 350), true)).toBe(guess);
    expect(laterIfBetter(guess, heard("nothing", 0), true)).toBe(guess);
  });
});
