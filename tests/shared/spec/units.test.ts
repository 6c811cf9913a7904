// One engine, one system: a figure with its unit is converted, a bare one is the sheet's, and sizes no engine has are refused.
// 1 in = 25.4 mm exactly and 1 in2 = 645.16 mm2 (NIST SP 811:2008, B.6 and B.8).
import { describe, expect, it } from "vitest";
import { parse, valueWords } from "../../../extractors/speech/index.ts";
import { contextOf } from "../../../shared/build/index.ts";
import { threadOf } from "../../../shared/rules/fasteners.ts";
import { whatIf } from "../../../shared/rules/index.ts";
import { DEMO_SPEC } from "../../../shared/spec/demo-engine.ts";
import { readSpecFile, writeSpecFile } from "../../../shared/spec/read.ts";
import { nonsenseIn } from "../../../shared/spec/sense.ts";
import { figureOf, lengthIn, nominalsIn } from "../../../shared/spec/sizes.ts";
import type { Limit, Spec } from "../../../shared/spec/spec.ts";
import { BenchLog } from "../rules/bench-log.ts";

const source = { kind: "shop", cite: "invented" } as const;
const limit = (id: string, on: string, unit: Limit["unit"], low: string, high: string, more: Partial<Limit> = {}): Limit => ({
  id,
  on,
  unit,
  accept: { low, high },
  source,
  ...more,
});

/** An invented metric engine; its fine limits are in hundredths of a millimetre. */
const METRIC: Spec = {
  ...DEMO_SPEC,
  id: "metric",
  units: "metric",
  nominals: { bore: ["68.00", "68.50"], stroke: ["68.0"], pin: ["18.00"], main_journal: ["35.00"], crankpin: ["32.00"] },
  figures: {
    gasket_area: { value: "38.5", unit: "cm2", source },
    gasket_thickness: { value: "1.20", unit: "mm", source },
    head_recess: { value: "0.50", unit: "mm", source },
  },
  oversizes: ["0.25", "0.50", "0.75", "1.00"],
  undersizes: ["0.25", "0.50"],
  fasteners: {
    head: {
      thread: "M10x1.25",
      pitch: "1.25",
      majorDiameter: "10",
      castle: false,
      low: "38",
      high: "42",
      unit: "N_m",
      k: "0.18",
      lubricant: "engine oil",
      proof: "600 MPa",
      count: 8,
      source,
    },
  },
  limits: [
    limit("piston_clearance", "piston_clearance", "mm", "0.05", "0.08"),
    limit("ring_end_gap", "ring_end_gap", "mm", "0.0030", "0.0045", { perInchOf: "bore" }),
    limit("piston_to_head", "piston_to_head", "mm", "1.0", "1.6"),
    limit("compression_ratio", "compression_ratio", "ratio", "5.4", "5.7"),
    limit("rod_clearance", "rod_clearance", "mm", "0.03", "0.05"),
    limit("bore_wear", "bore_wear", "mm", "0", "0.10", { condition: "as_found" }),
    limit("flatness", "flatness", "mm", "0", "0.05"),
    limit("compression", "compression_pressure", "kPa", "600", "800"),
    limit("surface_ra", "surface_ra", "um", "0.4", "1.0"),
  ],
  expected: [],
  proofs: [],
};

const faults = (spec: Spec) => nonsenseIn(spec).map(({ path, say }) => `${path.join(".")}: ${say}`);
const mm = { unit: "mm" } as const;

describe("the sheet", () => {
  it("of a metric engine is sound, and there and back the same", () => {
    expect(faults(METRIC)).toEqual([]);
    expect(readSpecFile(writeSpecFile(METRIC), "metric.yaml")).toEqual({ ok: true, spec: METRIC });
  });

  it.each([
    ["68.00", "inch", 68],
    ["68.00 mm", "inch", 2.67716535433071],
    ["68.00", "metric", 2.67716535433071],
    ["2.6772 in", "metric", 2.6772],
    ["2.6772in", "inch", 2.6772],
  ] as const)("%s on a sheet in %s is %d in", (text, units, inches) => {
    expect(lengthIn(text, { units })).toBe(inches);
  });

  it.each([
    [
      "68.00 on an inch sheet",
      { units: "inch", nominals: { bore: ["68.00"] } },
      "nominals.bore.0: Expected bore of 0.39 to 24 in, got 68.00 in: write the unit behind a figure in mm",
    ],
    [
      "3.875 on a metric sheet",
      { units: "metric", nominals: { bore: ["3.875"] } },
      "nominals.bore.0: Expected bore of 10 to 600 mm, got 3.875 mm: write the unit behind a figure in in",
    ],
    [
      "20 on an inch sheet with a stroke in inches",
      { units: "inch", nominals: { bore: ["20"], stroke: ["0.8"] } },
      "nominals.stroke.0: Expected stroke of 0.3 to 4 times the bore of 20 in, got 0.8 in: write the unit behind a figure in mm",
    ],
    [
      "a pin in inches beside a bore in mm",
      { units: "metric", nominals: { bore: ["98.4"], pin: ["0.875"] } },
      "nominals.pin.0: Expected pin of 3 to 200 mm, got 0.875 mm: write the unit behind a figure in in",
    ],
    [
      "a bore of nothing",
      { units: "inch", nominals: { bore: ["0"] } },
      "nominals.bore.0: Expected bore of 0.39 to 24 in, got 0 in: write the unit behind a figure in mm",
    ],
    [
      "an oversize in hundredths",
      { units: "metric", oversizes: ["25"] },
      "oversizes.0: Expected a step of -6.5 to 6.5 mm, got 25 mm",
    ],
    [
      "a gasket area in mm",
      { figures: { gasket_area: { value: "3850", unit: "mm", source } } },
      'figures.gasket_area.unit: Expected a unit of area for gasket_area, got "mm"',
    ],
    [
      "a unit nobody knows",
      { figures: { head_recess: { value: "1", unit: "hands", source } } },
      'figures.head_recess.unit: Expected a unit of length for head_recess, got "hands"',
    ],
    [
      "a bolt with threads and a pitch",
      { fasteners: { head: { ...METRIC.fasteners.head, threadsPerInch: 20 } } },
      "fasteners.head.pitch: Expected threadsPerInch or a pitch in mm, got both",
    ],
    [
      "a bolt of 10 in",
      { units: "inch", fasteners: { head: { ...METRIC.fasteners.head } } },
      "fasteners.head.majorDiameter: Expected a bolt of 0.098 to 2 in, got 10 in",
    ],
  ] as const)("%s is refused with one sentence", (_what, change, say) => {
    const spec = {
      ...METRIC,
      oversizes: [],
      undersizes: [],
      nominals: {},
      figures: {},
      fasteners: {},
      ...change,
    } as unknown as Spec;
    expect(faults(spec)).toEqual([say]);
  });

  it("takes each figure in the unit that it names", () => {
    expect(figureOf(METRIC, "gasket_area")).toBeCloseTo(38.5 / 6.4516, 12);
    expect(figureOf(METRIC, "head_recess")).toBeCloseTo(0.5 / 25.4, 12);
    expect(nominalsIn(METRIC, "bore", "mm")).toEqual([68, 68.5]);
  });

  it("has metric threads with their pitch: an M10 x 1.25 has a stress area of 61.2 mm2 (ISO 898-1:2013, Table 5)", () => {
    const thread = threadOf(METRIC.fasteners.head as NonNullable<Spec["fasteners"]["head"]>, METRIC);
    expect(thread.area * 645.16).toBeCloseTo(61.2, 1);
    expect(thread.perInch).toBeCloseTo(25.4 / 1.25, 10);
  });
});

describe("what the rules say of a metric engine", () => {
  const log = new BenchLog(METRIC);
  log.read("gasket_thickness", {}, 1.2, mm);
  log.read("deck_protrusion", { cylinder: 1 }, 0.3, mm);
  log.read("chamber_volume", { cylinder: 1 }, 50.4);
  log.read("bearing_clearance", { rod: 2 }, 0.07, mm);
  log.read("ring_end_gap", { cylinder: 2, ring: "top" }, 0.18, mm);
  log.read("surface_ra", { cylinder: 2 }, 0.3, { unit: "um" });
  log.read("compression_pressure", { cylinder: 2 }, 85, { unit: "psi" });
  log.read("fastener_torque", { fastener: "head", nut: 3 }, 50, { unit: "N_m" });

  it("piston to head is 1.2 + 0.5 - 0.3 = 1.4 mm, and no inch is left in any sentence", () => {
    expect(log.of("piston_to_head")).toMatchObject([{ verdict: "pass", value: 1.4, unit: "mm", limit: "1.000 to 1.600 mm" }]);
    const said = log
      .findings()
      .flatMap(({ why, limit: bound, remedy = "" }) => [why, bound ?? "", remedy])
      .join("\n");
    expect(said).not.toMatch(/\d in\b|thou|psi|lbf|in²/);
    expect(log.findings().map(({ unit }) => unit)).not.toContain("in");
  });

  it("the ratio is worked from cm2 as cm2: 1 + 246.9 / (50.4 + 38.5 x 0.12 - 1.09) = 5.58", () => {
    // pi/4 6.8^2 6.8 = 246.95 cc; gasket 4.62 cc; a crown 0.3 mm proud takes 1.09 cc.
    const swept = (Math.PI / 4) * 6.8 ** 3;
    const ratio = 1 + swept / (50.4 + 38.5 * 0.12 - (Math.PI / 4) * 6.8 ** 2 * 0.03);
    const [finding] = log.of("compression_ratio");
    expect(finding?.value).toBeCloseTo(ratio, 5);
    expect(finding?.why).toContain("gasket 1.200 x 38.5 cm²");
  });

  it.each([
    ["ring_end_gap", "0.204 to 0.306 mm", "by 0.030 mm or a little more, to 0.210 mm at least"],
    ["rod_clearance", "0.030 to 0.050 mm", " mm of shim from each side"],
    ["surface_ra", "0.4 to 1 µm", ""],
    ["torque", "38 to 42 N·m", "Slack it right off"],
  ] as const)("%s is held to %s and its remedy speaks the same units", (rule, bound, remedy) => {
    const [finding] = log.of(rule);
    expect(finding?.verdict).toBe("fail");
    expect(finding?.limit).toBe(bound);
    expect(finding?.remedy).toContain(remedy);
  });

  it("a pressure in psi is held against kPa: 85 psi is 586 kPa", () => {
    expect(log.of("compression")).toMatchObject([{ verdict: "fail", unit: "kPa", limit: "600 to 800 kPa" }]);
    expect(log.of("compression")[0]?.value).toBeCloseTo(586.05, 1);
  });

  it("a size exactly on its limit is within it, whatever inches make of it", () => {
    const out: string[] = [];
    for (let bore = 6800; bore <= 6810; bore++)
      for (let play = 4; play <= 9; play++) {
        const one = new BenchLog(METRIC);
        one.read("bore_diameter", { cylinder: 1 }, bore / 100, { ...mm, condition: "final" });
        one.read("piston_skirt_diameter", { cylinder: 1 }, (bore - play) / 100, mm);
        const verdict = one.of("piston_clearance")[0]?.verdict;
        if (verdict !== (play >= 5 && play <= 8 ? "pass" : "fail")) out.push(`${bore} - ${play}: ${verdict}`);
      }
    expect(out).toEqual([]);
  });

  it("what if answers in the same system", () => {
    const { outcomes } = whatIf(log.fold(), [{ kind: "shims", place: { rod: 2 }, removeEachSide: 0.02 / 25.4 }]);
    expect(outcomes.find(({ rule }) => rule === "rod_clearance")?.after).toMatchObject({ unit: "mm", value: 0.05 });
  });

  it("and the inch engine beside it is told in inches still", () => {
    const inch = new BenchLog();
    inch.read("bearing_clearance", { rod: 2 }, 0.0045);
    expect(inch.of("rod_clearance")).toMatchObject([{ limit: "0.0015 to 0.0025 in", unit: "in" }]);
  });
});

describe("what is said of a metric engine", () => {
  const context = contextOf(new BenchLog(METRIC).fold(), "vise");
  it.each([
    ["rod two clearance five hundredths", 0.05, "mm"],
    ["rod two clearance zero point oh five", 0.05, "mm"],
    ["rod two clearance fifty microns", 50, "um"],
    ["bore two top thrust sixty eight point oh three", 68.03, "mm"],
    ["bore two top thrust six eight oh three", 68.03, "mm"],
    ["bore two top thrust two point six seven seven two inches", 2.6772, "in"],
    ["rod two clearance two thou", 0.002, "in"],
    ["ring gap two top point two five", 0.25, "mm"],
  ] as const)("%s is %d %s", (words, value, unit) => {
    const { readings } = parse(words, context, METRIC);
    expect(readings.map((one) => [one.value, one.unit])).toEqual([[value, unit]]);
  });

  it.each(["rod two clearance five", "ring gap two top twelve"])("%s is asked about, in whose units", (words) => {
    const { readings, questions } = parse(words, context, METRIC);
    expect(readings.filter((one) => one.do === "accept")).toEqual([]);
    expect(questions.map(({ code }) => code)).toEqual(["which_scale"]);
  });

  it.each([
    ["0.05", "mm", "metric", "five hundredths"],
    ["0.01", "mm", "metric", "one hundredth"],
    ["0.05", "mm", "inch", "point oh five millimetres"],
    ["0.002", "in", "metric", "two thou"],
  ] as const)("%s %s is said back in a shop in %s as %s", (digits, unit, system, words) => {
    expect(valueWords({ quantity: "bearing_clearance", place: { rod: 2 }, unit, digits, do: "accept" }, system)).toBe(words);
  });

  it("without a word about the system the sheet decides, and the moment's word comes before it", () => {
    expect(parse("rod two clearance point oh five", {}, METRIC).readings[0]?.unit).toBe("mm");
    expect(parse("rod two clearance point oh oh two", { unit_system: "inch" }, METRIC).readings[0]?.unit).toBe("in");
    expect(parse("rod two clearance point oh oh two", {}, DEMO_SPEC).readings[0]?.unit).toBe("in");
  });
});
