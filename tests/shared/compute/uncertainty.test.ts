// Uncertainty of figures that several readings make, against the examples of the GUM (JCGM 100:2008) and against chance itself.
import fc from "fast-check";
import { derivative } from "mathjs";
import { describe, expect, it } from "vitest";
import { repeatability } from "../../../shared/compute/statistics.ts";
import { materialNamed } from "../../../shared/compute/thermal.ts";
import {
  combinedUncertainty,
  gaugeSources,
  type Source,
  sensitivities,
  shareSource,
  stepSource,
  temperatureSources,
} from "../../../shared/compute/uncertainty.ts";
import { answered, codeOf, figureOf, partOf } from "./ask.ts";

const one = (...sources: Source[]) => [{ sensitivity: 1, sources }];
const positive = fc.double({ min: 1e-6, max: 10, noNaN: true });

describe("combined uncertainty", () => {
  // JCGM 100:2008, 5.2.2, example: ten resistors of 1000 ohm in series, each calibrated with one standard of 0.1 ohm: 1 ohm; the
  // square root of the sum of squares, 0.32 ohm, is wrong.
  it("ten resistors that share their standard are known to 1 ohm together, not to 0.32", () => {
    const ten = (cause?: string) =>
      combinedUncertainty(Array.from({ length: 10 }, () => one({ u: 0.1, ...(cause === undefined ? {} : { cause }) })).flat());
    expect(ten("standard")).toBeCloseTo(1, 12);
    expect(ten()).toBeCloseTo(0.32, 2);
  });

  // JCGM 100:2008, H.1.4, from memory: 25, 9.7, 2.9 and 16.6 nm combine to 32 nm.
  it("an end gauge's four parts are 32 nm", () => {
    expect(figureOf("combined-uncertainty uncertainties=0.025um,0.0097um,0.0029um,0.0166um")).toBeCloseTo(0.032, 3);
  });

  // JCGM 100:2008, H.1.3.4, from memory: 50 mm of 11.5e-6 steel, 0.029 degC: 16.6 nm; and H.1.3.3: 0.1 degC off 20, the coefficients known to 0.58e-6: 2.9 nm.
  it("an end gauge's temperature is worth 16.6 nm, and its expansion 2.9 nm", () => {
    const [byTemperature, byExpansion] = temperatureSources(
      50e6,
      { material: materialNamed("steel"), temperature: 20.1, u: 0.029 },
      (0.58e-6 / 11.5e-6) * 100 * Math.sqrt(3),
    );
    expect(byTemperature?.u).toBeCloseTo(16.6, 0);
    expect(byExpansion?.u).toBeCloseTo(2.9, 1);
    const ask = "temperature-uncertainty length=50mm material=steel temperature=20.1degC within=0.029degC";
    expect(Number(partOf(ask, "from_temperature")) * 1e6).toBeCloseTo(16.6, 0);
  });

  it("a bend is half of its run-out, and half as uncertain", () => {
    const [half = 0] = sensitivities(([tir = 0]) => tir / 2, [0.0016]);
    expect(half).toBeCloseTo(0.5, 9);
    expect(combinedUncertainty([{ sensitivity: half, sources: [{ u: 0.0002 }] }])).toBeCloseTo(0.0001, 12);
  });

  it("the setting of one gauge falls out of a difference, and stays in a mean", () => {
    fc.assert(
      fc.property(positive, positive, (setting, own) => {
        const sources = [{ u: setting, cause: "bore gauge" }, { u: own }];
        const difference = [1, -1].map((sensitivity) => ({ sensitivity, sources }));
        expect(combinedUncertainty(difference)).toBeCloseTo(Math.SQRT2 * own, 9);
        const mean = [0.25, 0.25, 0.25, 0.25].map((sensitivity) => ({ sensitivity, sources }));
        expect(combinedUncertainty(mean)).toBeCloseTo(Math.hypot(setting, own / 2), 9);
      }),
    );
  });

  it("two gauges do not cancel each other", () => {
    const by = (cause: string) => ({ sources: [{ u: 3, cause }] });
    expect(
      combinedUncertainty([
        { sensitivity: 1, ...by("micrometer") },
        { sensitivity: -1, ...by("bore gauge") },
      ]),
    ).toBeCloseTo(Math.hypot(3, 3), 9);
  });

  // JCGM 100:2008, 4.2.3: the mean of n repeated readings has s / sqrt n.
  it("a mean of n divides by the root of n", () => {
    const readings = [30.3, 32.5, 32.5, 32.9, 32.9, 33.8, 34.3, 34.7, 37.4, 40.5];
    const { deviation, uncertainty } = repeatability(readings);
    const mean = readings.map(() => ({ sensitivity: 1 / readings.length, sources: [{ u: deviation }] }));
    expect(combinedUncertainty(mean)).toBeCloseTo(uncertainty, 9);
    expect(uncertainty).toBeCloseTo(2.88 / Math.sqrt(10), 2);
  });

  it("a spread, a taper and an out-of-round are differences of their two outermost readings", () => {
    const spread = (all: readonly number[]) => Math.max(...all) - Math.min(...all);
    expect(sensitivities(spread, [3.8885, 3.8826, 3.8774])).toEqual([1, 0, -1]);
    const outOfRound = ([thrust = 0, axial = 0]: readonly number[]) => Math.abs(thrust - axial);
    expect(sensitivities(outOfRound, [3.8838, 3.8885])).toEqual([-1, 1]);
  });
});

describe("sensitivities", () => {
  // mathjs differentiates the compression ratio by symbols.
  it("are the partial derivatives", () => {
    const at = { d: 99.187, s: 114.3, v: 240 };
    const formula = "1 + pi/4 * d^2 * s / 1000 / v";
    const ratio = ([d = 0, s = 0, v = 1]: readonly number[]) => 1 + ((Math.PI / 4) * d * d * s) / 1000 / v;
    sensitivities(ratio, [at.d, at.s, at.v]).forEach((found, i) => {
      const exact = derivative(formula, ["d", "s", "v"][i] ?? "").evaluate(at);
      expect(Math.abs(found - exact)).toBeLessThan(Math.abs(exact) * 1e-7);
    });
  });

  // By hand, for CR = 1 + V/c with V = 883.17 and c = 224: dCR/dc = -V/c^2 = -.0176; .5 cc is .0088.
  it("a ratio has a guard band from its chamber's burette", () => {
    const ask = "compression-ratio bore=3.905in+-0in stroke=4.5in+-0in chamber=224cc+-0.5cc";
    expect(answered(ask).uncertainty).toBeCloseTo(0.0088, 4);
  });
});

describe("what a gauge puts into a reading", () => {
  // JCGM 100:2008, F.2.2.1: a step of d has 0.29 d.
  it("its step is each reading's own, the rest of its certificate is shared", () => {
    const [own, setting] = gaugeSources("micrometer", 0.0002, 0.0001);
    expect(own?.u).toBeCloseTo(0.000029, 6);
    expect(own?.cause).toBeUndefined();
    expect(setting?.cause).toBe("micrometer");
    expect(Math.hypot(own?.u ?? 0, setting?.u ?? 0)).toBeCloseTo(0.0001, 12);
  });
  it("a certificate finer than the step has nothing to share", () => {
    expect(gaugeSources("feeler", 0.0001, 0.001)).toEqual([stepSource(0.001)]);
  });
  // ISO 6789-1:2017, from memory: indicating wrenches above 10 N m within 4 %; rectangular, so 4 / sqrt 3 is 2.31 %.
  it("a torque wrench within 4 % has a guard band of 1.645 x 2.31 % of what it reads", () => {
    expect(shareSource(35, 4, "wrench").u).toBeCloseTo(0.808, 3);
    const at = (torque: number) => `conformance value=${torque}ft_lbf within=4% low=35ft_lbf high=42ft_lbf`;
    expect(partOf(at(38), "guard_band")).toBeCloseTo(38 * 0.0231 * 1.645, 2);
    expect(partOf(at(38), "decision")).toBe("in");
    expect(partOf(at(36), "decision")).toBe("too_close");
    expect(partOf(at(34), "decision")).toBe("too_close");
    expect(partOf(at(33), "decision")).toBe("out");
  });
  it.each([
    ["a ratio", "conformance value=4.68 uncertainty=0.02 low=4.45 high=4.75", "in"],
    ["a percentage", "conformance value=24% uncertainty=1% high=25%", "too_close"],
    ["a bend by the inch", "conformance value=0.0004in/in uncertainty=0.0001in/in high=0.0005in/in", "too_close"],
  ])("%s has its guard band too", (_what, ask, decision) => {
    expect(partOf(ask, "decision")).toBe(decision);
  });
});

describe("asked for in text", () => {
  it("names what readings share, with - for what is a reading's own", () => {
    expect(figureOf("combined-uncertainty uncertainties=3um,3um sensitivities=1,-1 causes=mic,mic")).toBe(0);
    expect(figureOf("combined-uncertainty uncertainties=3um,4um causes=-,-")).toBe(5);
    expect(partOf("combined-uncertainty uncertainties=3um,4um", "expanded")).toBe(10);
  });
  it.each([
    ["combined-uncertainty uncertainties=3um,3um sensitivities=1", "bad_count"],
    ["combined-uncertainty uncertainties=-3um", "out_of_domain"],
    ["conformance value=1in high=2in", "missing_input"],
    ["conformance value=1in uncertainty=.1in within=4% high=2in", "missing_input"],
    ["bearing-clearance bore=2in+--0.1in journal=1.9in", "bad_number"],
    ["bearing-clearance bore=2in+-0.1psi journal=1.9in", "bad_unit"],
  ])("%s: %s", (ask, code) => {
    expect(codeOf(ask)).toBe(code);
  });
  it("an uncertainty typed with an input goes through to the answer, in its unit", () => {
    // By hand: root of .002^2 + .002^2.
    expect(answered("bearing-clearance bore=50.84±0.002mm journal=50.80mm+-0.002mm")).toMatchObject({
      value: 0.04,
      unit: "mm",
      uncertainty: 0.00282843,
    });
  });
});

describe("against chance", () => {
  // The spread of a great many simulated differences of one gauge (JCGM 101:2008, propagation by Monte Carlo), its setting drawn once a pair.
  it("a taper by one gauge scatters as its own parts say, not as its setting", () => {
    let state = 42;
    const uniform = () => {
      state = (state * 1664525 + 1013904223) % 2 ** 32;
      return state / 2 ** 32 - 0.5;
    };
    const step = 0.0001;
    const tapers = Array.from({ length: 20000 }, () => {
      const setting = 0.0005 * uniform();
      return 3.88 + setting + step * uniform() - (3.877 + setting + step * uniform());
    });
    const said = combinedUncertainty(
      [1, -1].map((sensitivity) => ({ sensitivity, sources: [stepSource(step), { u: stepSource(0.0005).u, cause: "gauge" }] })),
    );
    expect(Math.abs(repeatability(tapers).deviation - said) / said).toBeLessThan(0.02);
  });
});
