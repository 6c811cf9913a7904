// Decisions and probabilities: the zones of ISO 14253-1, the normal distribution, and the sentence that is said.
import fc from "fast-check";
import { erf } from "mathjs";
import { describe, expect, it } from "vitest";
import { capability, conformance, resolutionUncertainty, sayConformance } from "../../../shared/compute/conformance.ts";
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

  it("the guard band is twice the standard uncertainty (ISO 14253-1)", () => {
    const limits = { low: 0, high: 10 };
    expect(conformance(2, 1, limits).decision).toBe("in");
    expect(conformance(1.99, 1, limits).decision).toBe("too_close");
    expect(conformance(-1.99, 1, limits).decision).toBe("too_close");
    expect(conformance(-2, 1, limits).decision).toBe("out");
    expect(conformance(12.01, 1, limits).decision).toBe("out");
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
          if (decision === "in") expect(probability).toBeGreaterThan(0.95);
          if (decision === "out") expect(probability).toBeLessThan(0.05);
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

  // JCGM 100:2008 (GUM), F.2.2.1: a digital step of d has a standard uncertainty of 0.29 d.
  it("a step's own uncertainty is 0.29 of it", () => {
    expect(resolutionUncertainty(1)).toBeCloseTo(0.29, 2);
  });
});
