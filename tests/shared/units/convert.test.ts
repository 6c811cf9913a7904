// Conversions against mathjs, an independent table of units, and round trips for any number.
import fc from "fast-check";
import { unit as mathUnit } from "mathjs";
import { describe, expect, it } from "vitest";
import { COMPUTE_UNITS, type ComputeUnit, convertMeasure, dimensionOf, unitNamed } from "../../../shared/compute/units.ts";

/** mathjs's name for a unit of ours; those it has no name for are built from their parts. */
const MATHJS: Partial<Record<ComputeUnit, string>> = {
  in: "inch",
  mm: "mm",
  um: "um",
  thou: "mil",
  ft: "ft",
  m: "m",
  ft_lbf: "ft lbf",
  in_lbf: "inch lbf",
  N_m: "N m",
  psi: "psi",
  kPa: "kPa",
  bar: "bar",
  lbf: "lbf",
  N: "N",
  g: "g",
  kg: "kg",
  oz: "oz",
  lb: "lbm",
  cc: "cm^3",
  in3: "inch^3",
  mm3: "mm^3",
  L: "L",
  in2: "inch^2",
  mm2: "mm^2",
  cm2: "cm^2",
  degC: "degC",
  degF: "degF",
};

const pairs = Object.keys(MATHJS).flatMap((a) =>
  Object.keys(MATHJS)
    .filter((b) => a !== b && dimensionOf(a as ComputeUnit) === dimensionOf(b as ComputeUnit))
    .map((b) => [a as ComputeUnit, b as ComputeUnit] as const),
);

describe("against mathjs", () => {
  it.each(pairs)("%s to %s", (a, b) => {
    for (const value of [1, 3.905, -0.0042, 1250]) {
      const theirs = mathUnit(value, MATHJS[a] ?? "").toNumber(MATHJS[b] ?? "");
      // mathjs keeps pounds and gallons to fewer figures than the exact definitions.
      expect(Math.abs(convertMeasure(value, a, b) - theirs)).toBeLessThanOrEqual(Math.abs(theirs) * 2e-7 + 1e-9);
    }
  });
});

describe("round trips", () => {
  const inDimension = COMPUTE_UNITS.flatMap((a) =>
    COMPUTE_UNITS.filter((b) => dimensionOf(a) === dimensionOf(b)).map((b) => [a, b] as const),
  );
  it("there and back is where it started, for every pair", () => {
    fc.assert(
      fc.property(fc.constantFrom(...inDimension), fc.double({ min: -1e4, max: 1e4, noNaN: true }), ([a, b], value) => {
        const back = convertMeasure(convertMeasure(value, a, b), b, a);
        expect(Math.abs(back - value)).toBeLessThanOrEqual(Math.abs(value) * 1e-11 + 1e-9);
      }),
    );
  });
  it("thou and tenths to microns are exact (25.4 and 2.54 by definition)", () => {
    fc.assert(
      fc.property(fc.integer({ min: -40000, max: 40000 }), (n) => {
        expect(convertMeasure(n / 10000, "in", "um")).toBe(Number((n * 2.54).toFixed(6)));
      }),
    );
  });
  it("refuses two dimensions", () => {
    expect(() => convertMeasure(1, "in", "psi")).toThrow(RangeError);
    expect(() => convertMeasure(1, "in2", "in")).toThrow("Expected a unit of area for in2, got in");
  });
});

describe("spellings", () => {
  it.each([
    ["ft-lb", "ft_lbf"],
    ["N·m", "N_m"],
    ["Nm", "N_m"],
    ["µm", "um"],
    ["INCH", "in"],
    ['"', "in"],
    ["TPI", "threads_per_in"],
    ["°C", "degC"],
    ["MM", "mm"],
  ])("%s is %s", (text, id) => {
    expect(unitNamed(text)).toBe(id);
  });
  it("a bare mil is nobody's unit: it is a thou in one country and a millimetre in another", () => {
    expect(unitNamed("mil")).toBeUndefined();
  });
});
