// What is measured at one place and must hold all over: a ring's gap over the bore's taper, a piston's clearance from end to end.
// The gap follows the bore by pi times its change (geometry); TM 5-3825-225-14&P, para 1-26, rounds it to .003 for .001.
// The expected figures are worked out by hand beside each case.
import { describe, expect, it } from "vitest";
import type { Place } from "../../../shared/places/places.ts";
import { BenchLog } from "./bench-log.ts";
import { bore } from "./scenes.ts";

const TOP_RING = { cylinder: 3, ring: "top" } as const;
/** Limits of the demo sheet at 3.9050: .0030 x 3.905 = .0117 to .0045 x 3.905 = .0176. */
function tapered(top: number, bottom: number, condition: "as_found" | "final" = "final"): BenchLog {
  const log = new BenchLog();
  for (const [depth, size] of [
    ["top", top],
    ["bottom", bottom],
  ] as const)
    log.read("bore_diameter", { cylinder: 3, depth, axis: "thrust" }, size, { condition });
  return log;
}
const gap = (log: BenchLog, value: number, depth?: Place["depth"]) => {
  log.read("ring_end_gap", { ...TOP_RING, ...(depth === undefined ? {} : { depth }) }, value, { condition: "final" });
  return log.of("ring_end_gap")[0];
};

describe("ring gap over the bore's taper", () => {
  it("a gap that is good at the top butts where the bore is .0118 smaller: .0130 - pi x .0118 = -.0241", () => {
    const finding = gap(tapered(3.8885, 3.8767, "as_found"), 0.013, "top");
    expect(finding?.verdict).toBe("fail");
    expect(finding?.value).toBeCloseTo(0.013 - 0.03707, 5);
    expect(finding?.why).toContain("its ends meet");
    expect(finding?.why).toContain("taken at the top, bore as found");
    expect(finding?.remedy).toContain("true first");
  });

  it.each([
    // .0125 at the large end of .0010 taper: .0125 - .0031 = .0094 at the small end, below .0117.
    [0.0125, "top", "fail", 0.0094],
    // At the small end it is good: .0125 there, .0125 + .0031 = .0156 at the large one, below .0176.
    [0.0125, "bottom", "pass", 0.0125],
    // .0150 at the small end opens to .0181, past .0176.
    [0.015, "bottom", "fail", 0.0181],
  ] as const)("%d taken at the %s of a bore with .0010 taper: %s", (value, depth, verdict, decides) => {
    const finding = gap(tapered(3.906, 3.905), value, depth);
    expect(finding?.verdict).toBe(verdict);
    expect(finding?.value).toBeCloseTo(decides, 4);
  });

  it("where all is good, both ends are told", () => {
    const finding = gap(tapered(3.906, 3.905), 0.0125, "bottom");
    expect(finding?.why).toContain("at the smallest diameter, bottom 3.9050");
    expect(finding?.why).toContain("at the largest diameter, top 3.9060: 0.0125 + pi x 0.0010 = 0.0156");
    expect(finding?.why).toContain("bore finished");
  });

  it("taken nobody said where, it is good only if it is good from either end, else asked", () => {
    // .0003 taper moves it by .0009: .0121 to .0139 from .0130 wherever it was.
    expect(gap(tapered(3.9053, 3.905), 0.013)?.verdict).toBe("pass");
    const asked = gap(tapered(3.906, 3.905), 0.0125);
    expect(asked?.verdict).toBe("unknown");
    expect(asked?.remedy).toBe("Say where it was taken: top, middle or bottom of the bore.");
    expect(gap(tapered(3.906, 3.905), 0.0125, "bottom")?.verdict).toBe("pass");
  });

  it("a taper that moves the gap further than the limit is wide is a fault wherever it was taken", () => {
    // pi x .0020 = .0063, and .0117 to .0176 is .0059 wide.
    const finding = gap(tapered(3.907, 3.905), 0.0145);
    expect(finding?.verdict).toBe("fail");
    expect(finding?.why).toContain("changes by 0.00628 in over the part");
  });

  it("an oval bore goes round by its mean: two axes at one depth are one size", () => {
    const log = new BenchLog();
    bore(log, 3, [3.9052, 3.9048, 3.9052, 3.9048, 3.9052, 3.9048], "final");
    const finding = gap(log, 0.0125, "top");
    expect(finding).toMatchObject({ verdict: "pass", value: 0.0125 });
    expect(finding?.why).not.toContain("pi x");
  });

  it("a bore read after the gap moves its verdict, and the finished bore counts before the one as found", () => {
    const log = tapered(3.8885, 3.8767, "as_found");
    expect(gap(log, 0.013, "top")?.verdict).toBe("fail");
    for (const depth of ["top", "bottom"] as const)
      log.read("bore_diameter", { cylinder: 3, depth, axis: "thrust" }, 3.905, { condition: "final" });
    expect(gap(log, 0.013, "top")?.verdict).toBe("pass");
  });
});

describe("piston clearance from end to end", () => {
  const fitted = (skirt: number) => {
    const log = new BenchLog();
    bore(log, 3, [3.8885, 3.8838, 3.8826, 3.8806, 3.8774, 3.8767]);
    log.read("piston_skirt_diameter", { cylinder: 3 }, skirt);
    return log;
  };

  it("good at the smallest, .0155 at the top of the same bore: past the reject limit of .0060", () => {
    // 3.8767 - 3.8730 = .0037 and 3.8885 - 3.8730 = .0155.
    const [finding] = fitted(3.873).of("piston_clearance");
    expect(finding).toMatchObject({ verdict: "fail", value: 0.0155 });
    expect(finding?.why).toContain("3.8885 - 3.8730 = 0.0155 at the largest, bore as found");
    expect(finding?.remedy).toContain("true first: it differs by 0.0118 in");
  });

  it("tight at the smallest is told before loose at the largest", () => {
    // 3.8767 - 3.8760 = .0007, below .0030.
    expect(fitted(3.876).of("piston_clearance")[0]).toMatchObject({ verdict: "fail", value: 0.0007 });
  });

  it("a finished size takes the place of those as found, and is named", () => {
    const log = fitted(3.9012);
    log.read("bore_diameter", { cylinder: 3 }, 3.9052, { condition: "final" });
    const [finding] = log.of("piston_clearance");
    // 3.9052 - 3.9012 = .0040.
    expect(finding).toMatchObject({ verdict: "pass", value: 0.004 });
    expect(finding?.why).toContain("bore finished");
  });

  it("pistons offered fit both ends: 3.9060 - .0045 to 3.9052 - .0030", () => {
    const log = new BenchLog();
    log.read("bore_diameter", { cylinder: 3, depth: "top", axis: "thrust" }, 3.906, { condition: "final" });
    log.read("bore_diameter", { cylinder: 3, depth: "bottom", axis: "thrust" }, 3.9052, { condition: "final" });
    log.read("piston_skirt_diameter", { cylinder: 3 }, 3.9);
    expect(log.of("piston_clearance")[0]?.remedy).toContain("a piston of 3.9015 to 3.9022 in");
  });

  it("a clearance felt anywhere between the two is no contradiction; one beyond them is", () => {
    const felt = (value: number) => {
      const log = fitted(3.873);
      log.read("piston_clearance", { cylinder: 3 }, value);
      return log.of("contradiction")[0]?.verdict;
    };
    expect(felt(0.008)).toBe("pass");
    expect(felt(0.018)).toBe("warn");
  });
});
