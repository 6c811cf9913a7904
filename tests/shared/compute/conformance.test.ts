// Decisions and probabilities: the zones of ISO 14253-1, the normal distribution, and the sentence that is said.
import fc from "fast-check";
import { erf } from "mathjs";
import { describe, expect, it } from "vitest";
import {
  capability,
  capabilityIndex,
  conformance,
  resolutionUncertainty,
  sayConformance,
} from "../../../shared/compute/conformance.ts";
import { normalCdf } from "../../../shared/compute/statistics.ts";

describe("normal distribution", () => {
  // NIST/SEMATECH e-Handbook of Statistical Methods, 1.3.6.7.1, cumulative distribution of the standard normal.
  it.each([
    [0, 0.5],
    [1, 0.84134],
    [1.64, 0.9495],
    [1.96, 0.975],
    [2, 0.97725],
    [3, 0.99865],
  ])("Phi(%d) is %d", (z, p) => {
    expect(normalCdf(z)).toBeCloseTo(p, 5);
    expect(normalCdf(-z)).toBeCloseTo(1 - p, 5);
  });

  it("agrees with mathjs's error function", () => {
    fc.assert(
      fc.property(fc.double({ min: -6, max: 6, noNaN: true }), (z) => {
        expect(Math.abs(normalCdf(z) - (1 + erf(z / Math.SQRT2)) / 2)).toBeLessThan(1e-12);
      }),
    );
  });

  it("far out it is 0 and 1, and is never lost to a NaN", () => {
    expect(normalCdf(-50)).toBe(0);
    expect(normalCdf(50)).toBe(1);
    expect(normalCdf(Number.NaN)).toBeNaN();
  });
});

describe("conformance", () => {
  // JCGM 106:2012, Table 1 (memory): one-sided limit, distance in standard uncertainties for a conformance probability.
  it.each([
    [0.84, 0.8],
    [1.28, 0.9],
    [1.64, 0.95],
    [2.33, 0.99],
    [3.09, 0.999],
  ])("%d u inside a single limit is a probability of %d", (z, p) => {
    expect(conformance(10 - z, 1, { high: 10 }).probability).toBeCloseTo(p, 2);
  });

  // ISO 14253-1:2017: conformance is proven from a probability of 95 %, which the normal distribution has 1.645 u inside one limit
  // (NIST/SEMATECH e-Handbook, 1.3.6.7.1: Phi(1.64) = .9495, Phi(1.65) = .9505).
  it.each([
    [1.65, "in"],
    [1.64, "too_close"],
    [0, "too_close"],
    [-1.64, "too_close"],
    [-1.65, "out"],
    [8.35, "in"],
    [8.36, "too_close"],
    [11.64, "too_close"],
    [11.65, "out"],
  ] as const)("at %d, u = 1, of 0 to 10: %s at 95 %", (value, decision) => {
    expect(conformance(value, 1, { low: 0, high: 10 }).decision).toBe(decision);
  });

  it("a gauge far coarser than the limits does not prove a reading in the middle to be out", () => {
    // Phi(.05) - Phi(-.05) = .04: hardly ever within, and no better where it reads out by less than it can tell.
    expect(conformance(5, 100, { low: 0, high: 10 })).toMatchObject({ decision: "too_close" });
    expect(conformance(5, 100, { low: 0, high: 10 }).probability).toBeCloseTo(0.04, 3);
  });

  it("two near limits share the 5 %: what is proven of each alone is not proven of both", () => {
    // Phi(1.8) - Phi(-1.8) = .928: below .95, though 1.8 u from either limit is above it.
    expect(conformance(1.8, 1, { low: 0 }).decision).toBe("in");
    expect(conformance(1.8, 1, { low: 0, high: 3.6 }).decision).toBe("too_close");
  });

  // ISO 14253-1:1998 and JCGM 106:2012, 8.3.2.2: a guard band of U = 2u on either side.
  it.each([
    [2, "in"],
    [1.99, "too_close"],
    [-1.99, "too_close"],
    [-2, "out"],
    [12.01, "out"],
  ] as const)("at %d a shop that keeps a guard band of 2u says %s", (value, decision) => {
    expect(conformance(value, 1, { low: 0, high: 10 }, "guard_band_2u").decision).toBe(decision);
  });

  // JCGM 106:2012, 8.2.1: simple acceptance takes the number as it stands; the probability is told all the same.
  it.each([
    [0.01, "in"],
    [-0.01, "out"],
  ] as const)("at %d a shop of simple acceptance says %s", (value, decision) => {
    const ruling = conformance(value, 1, { low: 0, high: 10 }, "simple_acceptance");
    expect(ruling.decision).toBe(decision);
    expect(ruling.probability).toBeCloseTo(0.5, 1);
  });

  it("without uncertainty, on the limit is in", () => {
    expect(conformance(0.003, 0, { high: 0.003 })).toEqual({ probability: 1, decision: "in" });
    expect(conformance(0.0031, 0, { high: 0.003 })).toEqual({ probability: 0, decision: "out" });
  });

  it("in means at least 95 in 100, out means at most 5, for any limits", () => {
    fc.assert(
      fc.property(
        fc.double({ min: -5, max: 5, noNaN: true }),
        fc.double({ min: 0.01, max: 3, noNaN: true }),
        fc.double({ min: -3, max: 0, noNaN: true }),
        fc.double({ min: 0, max: 3, noNaN: true }),
        (value, u, low, high) => {
          const { probability, decision } = conformance(value, u, { low, high });
          expect(probability).toBeGreaterThanOrEqual(0);
          expect(probability).toBeLessThanOrEqual(1);
          const within = value >= low && value <= high;
          expect(decision).toBe(probability >= 0.95 ? "in" : probability <= 0.05 && !within ? "out" : "too_close");
        },
      ),
    );
  });

  it("says it aloud", () => {
    expect(sayConformance(conformance(11, 1, { high: 12 }), "feeler")).toBe(
      "too close to call with this feeler: 84 in 100 it is in",
    );
    expect(sayConformance(conformance(11, 1, { high: 12 }), "feeler gauges")).toContain("with these feeler gauges");
    expect(sayConformance(conformance(1, 1, { high: 12 }), "feeler")).toBe("in");
    expect(sayConformance(conformance(16, 1, { high: 12 }))).toBe("out");
  });
});

describe("capability", () => {
  it("a tenth is fine, a fifth is coarse, more is too coarse", () => {
    expect(capability(0.0001, { low: 0.001, high: 0.002 }).verdict).toBe("fine");
    expect(capability(0.0001, { low: 0.0003, high: 0.0008 }).verdict).toBe("coarse");
    expect(capability(0.001, { low: 0.0003, high: 0.0008 }).verdict).toBe("too_coarse");
    expect(() => capability(1, { low: 2, high: 2 })).toThrow(RangeError);
  });

  // JCGM 106:2012, 7.6.3: Cm = T/(4 u); a tolerance of 8 u has an index of 2, one of 4 u an index of 1.
  it.each([
    [1, 8, 2],
    [1, 4, 1],
    [0.5, 8, 4],
  ])("u = %d on a tolerance of %d is an index of %d", (u, high, index) => {
    expect(capabilityIndex(u, { low: 0, high })).toBe(index);
  });
  it("has no index without an uncertainty or a tolerance", () => {
    expect(() => capabilityIndex(0, { low: 0, high: 1 })).toThrow(RangeError);
    expect(() => capabilityIndex(1, { low: 1, high: 1 })).toThrow(RangeError);
    expect(() => capability(-1, { low: 0, high: 1 })).toThrow(RangeError);
  });

  // JCGM 100:2008 (GUM), F.2.2.1: a digital step of d has a standard uncertainty of 0.29 d.
  it("a step's own uncertainty is 0.29 of it", () => {
    expect(resolutionUncertainty(1)).toBeCloseTo(0.29, 2);
  });
});
