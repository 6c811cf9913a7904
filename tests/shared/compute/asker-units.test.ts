// In the asker's units: metric in is metric out, bare figures that could be either system are refused, and nothing is told finer than it is known.
import { unit } from "mathjs";
import { describe, expect, it } from "vitest";
import { codeOf, figureOf, answered as full, partOf } from "./ask.ts";

describe("metric in, metric out", () => {
  // The same question in both systems; mathjs turns the inch answer into the metric one.
  it.each([
    [
      "displacement bore=3.905in stroke=4.5in cylinders=4",
      "displacement bore=99.187mm stroke=114.3mm cylinders=4",
      "inch^3",
      "cc",
      "cm^3",
    ],
    ["ring-gap-limit bore=3.905in per-inch=0.0035", "ring-gap-limit bore=99.187mm per-inch=0.0035", "inch", "mm", "mm"],
    ["bearing-clearance bore=2.0020in journal=2.0000in", "bearing-clearance bore=50.8508mm journal=50.8mm", "inch", "mm", "mm"],
    [
      "bolt-stress force=5600lbf area=0.0878in2",
      "bolt-stress force=24910.0410454588N area=56.645048mm2",
      "lbf/inch^2",
      "MPa",
      "MPa",
    ],
    ["curtain-area diameter=1.5in lift=0.375in", "curtain-area diameter=38.1mm lift=9.525mm", "inch^2", "mm2", "mm^2"],
    [
      "spring-rate wire=0.1875in outside-diameter=1.25in active=6 modulus=11.5Mpsi",
      "spring-rate wire=4.7625mm outside-diameter=31.75mm active=6 modulus=79.28970887143615GPa",
      "lbf/inch",
      "N_per_mm",
      "N/mm",
    ],
    [
      "stroke-speed bore=4in rpm=200 angle=45",
      "stroke-speed bore=101.6mm rpm=200 angle=45",
      "inch/minute",
      "mm_per_min",
      "mm/minute",
    ],
    [
      "torque-for-preload force=5597lbf diameter=0.375in k=0.18",
      "torque-for-preload force=24896.696380613N diameter=9.525mm k=0.18",
      "foot lbf",
      "N_m",
      "N m",
    ],
  ])("%s", (inch, metric, inchUnit, id, metricUnit) => {
    const theirs = unit(figureOf(inch), inchUnit).toNumber(metricUnit);
    expect(full(metric).unit).toBe(id);
    expect(Math.abs(figureOf(metric) - theirs)).toBeLessThanOrEqual(Math.abs(theirs) * 3e-7);
  });

  it("a difference of two metric sizes has no tail of inches in it", () => {
    expect(figureOf("bearing-clearance bore=50.84mm journal=50.80mm")).toBe(0.04);
    expect(figureOf("half-shell undersize=0.25mm")).toBe(0.125);
    expect(figureOf("bore-wear largest=98.532mm standard=98.425mm")).toBe(0.107);
  });

  it("parts follow, and say their unit", () => {
    const ask = "ring-gap-extremes gap=0.40mm gap-bore=98.4mm smallest=98.4mm largest=98.5mm";
    expect(full(ask)).toMatchObject({ unit: "mm", units: { at_largest: "mm" } });
    expect(partOf(ask, "at_largest")).toBeCloseTo(0.4 + 0.1 * Math.PI, 9);
    const form = "bore-form readings=98.50mm,98.45mm,98.44mm,98.43mm,98.42mm,98.42mm";
    expect(full(form)).toMatchObject({ unit: "mm", value: { out_of_round: 0.05, taper: 0.08, largest: 98.5 } });
  });

  it("inch in is inch out, and both at once is the computation's own", () => {
    expect(full("bearing-clearance bore=2.0020in journal=2.0000in").unit).toBe("in");
    expect(full("bearing-clearance bore=2.0020in journal=50.8mm").unit).toBe("in");
    // A chamber is poured in cc in an inch shop too.
    expect(full("displacement bore=3.905in stroke=4.5in cylinders=4").unit).toBe("in3");
  });
});

describe("bare figures", () => {
  it.each([
    "displacement bore=3.5 stroke=3 cylinders=6",
    "displacement bore=3.5in stroke=3 cylinders=6",
    "extension torque=35 length=14in extension=3in",
    "temperature-correction length=3.9054in temperature=29 material=steel",
    "temperature-correction length=3.9054 temperature=29degC material=steel",
    "temperature-correction length=3.9054in temperature=0 material=steel",
    "bore-form readings=3.8885in,3.8838,3.8826,3.8806,3.8774,3.8767",
    "cranking-pressure compression-ratio=5 atmosphere=14.7",
    "conformance value=1in uncertainty=0.1 high=2in",
    "preload torque=35 diameter=0.375in k=0.18",
  ])("%s is refused: it could be either system", (text) => {
    expect(codeOf(text)).toBe("missing_unit");
  });

  it.each([
    ["angles, counts and ratios have one unit", "cross-hatch bore=4in rpm=200 stroke-speed=1000in/min"],
    ["nothing is nothing in any unit", "piston-to-head gasket=0.058in recess=0 protrusion=0"],
    ["a unit behind the last of a list is the list's", "bore-form readings=3.8885,3.8838,3.8826,3.8806,3.8774,3.8767in"],
    ["bare figures of no matter what are compared as they stand", "spread readings=72,69,70,71"],
  ])("%s", (_why, text) => {
    expect(codeOf(text)).toBe("answered");
  });
});

describe("rounded to what is known", () => {
  it.each([
    // By hand: half a tenth of a thou, rectangular, through pi, twice: +-.00018, so the tenth is the last place.
    ["ring-gap-change bore-change=0.0111in", "0.0349 in"],
    ["ring-gap-change bore-change=0.011in", "0.035 in"],
    // Half a foot pound either way is .68 N m: NIST SP 811, B.7, whole newton metres.
    ["convert value=35ft-lb to=n.m", "47 N·m"],
    ["convert value=35.0ft-lb to=n.m", "47.5 N·m"],
    ["bearing-clearance bore=2.0020in journal=1.9998in", "0.0022 in"],
    ["bearing-clearance bore=50.84mm journal=50.80mm", "0.04 mm"],
    ["displacement bore=3.905in stroke=4.500in cylinders=4", "215.6 in³"],
    ["spread readings=72psi,69psi,70psi,71psi", "3 psi"],
    // A dial set to 0 is not set to the nearest inch: the thou of the others counts.
    ["flywheel-runout readings=0in,.004in,.006in,.002in diameter=11in", "0.006 in"],
  ])("%s: %s", (text, rounded) => {
    expect(full(text).rounded).toBe(rounded);
  });

  it("of an answer that is several figures, each that is a measure: half a hundredth either way, twice", () => {
    // u = .01 / sqrt 12 = .0029 mm for a size, sqrt 2 of it for a difference: U = .006 and .008, so the hundredth is the last place.
    const readings = "99.19mm,99.18mm,99.19mm,99.18mm,99.10mm,99.18mm";
    expect(full(`bore-form readings=${readings}`).rounded).toMatchObject({
      out_of_round: "0.08 mm",
      taper: "0.09 mm",
      largest: "99.19 mm",
    });
    expect(full("oil-pump pocket-depth=1.001in gear-length=0.998in").rounded).toEqual({ end: "0.003 in" });
  });
  it("a thread's name is no reading: its area is not rounded to the digits of M8", () => {
    expect(full("metric-stress-area diameter=8mm pitch=1.25mm").rounded).toBeUndefined();
  });
});

describe("temperatures", () => {
  // 68 degF is 20 degC by definition; half a degree Celsius is nine tenths of a degree Fahrenheit.
  it("68 degF and 20 degC are the same figure", () => {
    expect(partOf("unit-pair first=68degF second=20degC", "agrees")).toBe(true);
    expect(partOf("unit-pair first=20.0degC second=68.0degF", "agrees")).toBe(true);
    expect(partOf("unit-pair first=20degC second=68degF", "allowed")).toBeCloseTo(0.5 * 1.8 + 0.5, 9);
    expect(partOf("unit-pair first=70degF second=20degC", "agrees")).toBe(false);
    expect(partOf("unit-pair first=72degF second=20degC", "agrees")).toBe(false);
  });
  it("an uncertainty of 0.5 degC is one of 0.9 degF", () => {
    expect(partOf("conformance value=68degF uncertainty=0.5degC low=60degF high=75degF", "standard_uncertainty")).toBe(0.9);
    expect(partOf("conformance value=20degC uncertainty=0.9degF low=15degC high=25degC", "standard_uncertainty")).toBe(0.5);
    expect(figureOf("capability resolution=1degC low=60degF high=78degF")).toBe(0.1);
  });
});
