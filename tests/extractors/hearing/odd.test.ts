// How badly a sentence may fit before it is asked about: sooner in a quiet shop in a voice that is known, where talk fits badly (figures
// of the tuning voices are beside the limits; no published source).
import { describe, expect, it } from "vitest";
import { oddFrom, oddIfSlippery, type Setting } from "../../../extractors/hearing/doubt/odd.ts";

const KNOWN: Setting = { usual: 200, fitted: true };

describe("strangeness from which a sentence is asked about", () => {
  it.each<[string, Setting, number]>([
    ["a stranger of whom nothing is known yet", {}, 325],
    ["a stranger who fits well", { usual: 200 }, 315],
    ["a stranger who fits badly", { usual: 280 }, 336],
    ["a stranger in quiet", { usual: 200, quiet: true }, 315],
    ["a known voice in noise", KNOWN, 315],
    ["a known voice in quiet", { ...KNOWN, quiet: true }, 290],
    ["a known voice in quiet, before it said anything", { fitted: true, quiet: true }, 290],
    ["a known voice in quiet that fits badly", { ...KNOWN, usual: 260, quiet: true }, 312],
    ["any voice, however badly it fits", { usual: 400, fitted: true, quiet: true }, 345],
  ])("is that of %s", (_, setting, limit) => {
    expect(oddFrom(setting)).toBeCloseTo(limit, 6);
  });

  it("is lower for what slips easily", () => {
    expect(oddIfSlippery({})).toBe(320);
    expect(oddIfSlippery(KNOWN)).toBe(280);
  });
});
