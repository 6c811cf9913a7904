// Spec sheets as files: there and back digit by digit, numbers without quotes, and faults that name line and field.
import fc from "fast-check";
import { describe, expect, it } from "vitest";
import { blankSpec } from "../../../shared/spec/blank.ts";
import { DEMO_SPEC } from "../../../shared/spec/demo-engine.ts";
import { readSpecFile, writeSpecFile } from "../../../shared/spec/read.ts";
import { type Spec, specSchema } from "../../../shared/spec/spec.ts";

const yaml = writeSpecFile(DEMO_SPEC);
const lineOf = (text: string, part: string) => text.slice(0, text.indexOf(part)).split("\n").length;

function errorsOf(text: string) {
  const read = readSpecFile(text, "sheet.yaml");
  return read.ok ? [] : read.errors;
}

describe("there and back", () => {
  it("YAML gives the same sheet, trailing zeros and all", () => {
    expect(readSpecFile(yaml, "sheet.yaml")).toEqual({ ok: true, spec: DEMO_SPEC });
    expect(yaml).toContain('"3.8750"');
  });
  it("JSON is read as well", () => {
    expect(readSpecFile(JSON.stringify(DEMO_SPEC), "sheet.json")).toEqual({ ok: true, spec: DEMO_SPEC });
  });
  it("figures without quotes keep their digits", () => {
    const bare = yaml.replace(/"(-?\d*\.?\d+)"/g, "$1");
    expect(bare).toContain("- 3.8750");
    expect(readSpecFile(bare, "sheet.yaml")).toEqual({ ok: true, spec: DEMO_SPEC });
  });
});

describe("faults", () => {
  it.each([
    ["cylinders: 4", "cylinders: four", "engine.cylinders", "bad_field"],
    ["layout: side_valve", "layout: sideways", "engine.layout", "bad_field"],
    ["numberedFrom: front", "numberdFrom: front", "engine.numberdFrom", "unknown_field"],
    ['high: "0.003"', "high: three", "limits.0.accept.high", "bad_field"],
    ['high: "0.003"', 'high: "3 thou"', "limits.0.accept.high", "bad_field"],
  ])("%s written as %s is found at its line as %s", (was, is, field, code) => {
    const text = yaml.replace(was, is);
    const fault = errorsOf(text).find((error) => error.field === field);
    expect(fault).toMatchObject({ code, line: lineOf(text, is) });
    expect(fault?.say).toMatch(new RegExp(`^sheet\\.yaml:${fault?.line}: ${field.replaceAll(".", "\\.")}: `));
  });

  it.each([
    ["on: bore_taper", "on: bore_tapper", "limits.1.on"],
    ["unit: percent", "unit: psi", ""],
    ['low: "0.0015"', 'low: "0.0150"', ""],
    ['low: "35"', 'low: "43"', "fasteners.rod.low"],
    ["    - 4\n    - 2", "    - 4\n    - 4", "engine.firingOrder"],
    ["id: bore_taper_rering", "id: bore_out_of_round_rering", "limits.1.id"],
    ["quantity: crank_end_float\n    each: []", "quantity: crank_end_float\n    each: [ring]", ""],
  ])("well formed, but %j written as %j makes no sense and is refused with its line", (was, is, field) => {
    expect(yaml).toContain(was);
    const [fault] = errorsOf(yaml.replace(was, is));
    expect(fault?.code).toBe("no_sense");
    expect(fault?.line).toBeGreaterThan(1);
    expect(fault?.say).toMatch(/: Expected .+, got /);
    if (field !== "") expect(fault?.field).toBe(field);
  });

  it("a field left out is named", () => {
    expect(errorsOf(yaml.replace(/^id: .*\n/m, "")).map((error) => [error.field, error.code])).toEqual([["id", "missing_field"]]);
  });

  it("what is no sheet at all is said in one sentence", () => {
    expect(errorsOf("")[0]?.code).toBe("not_a_sheet");
    expect(errorsOf("just words")[0]?.code).toBe("not_a_sheet");
    expect(errorsOf("[1, 2]")[0]?.code).toBe("not_a_sheet");
    expect(errorsOf("a: [1,\nb: 2")[0]).toMatchObject({ code: "not_readable", line: 2 });
    expect(errorsOf("a: 1\na: 2")[0]).toMatchObject({ code: "not_readable", line: 2 });
    expect(errorsOf("x".repeat(1_000_001))[0]?.code).toBe("not_a_sheet");
  });

  it("a sheet that unfolds itself by reference is refused", () => {
    const bomb = ["a: &a [x, x, x]", "b: &b [*a, *a, *a]", "c: &c [*b, *b, *b]", "d: [*c, *c, *c]"].join("\n");
    expect(errorsOf(bomb)[0]?.code).toBe("not_readable");
  });

  it("never throws, whatever the text", () => {
    fc.assert(
      fc.property(fc.string({ maxLength: 300 }), (text) => {
        expect(readSpecFile(text, "x").ok).toBe(false);
      }),
    );
  });

  it("never throws for a sheet damaged anywhere", () => {
    fc.assert(
      fc.property(fc.nat(yaml.length - 1), fc.string({ maxLength: 4 }), (at, bit) => {
        const read = readSpecFile(yaml.slice(0, at) + bit + yaml.slice(at + 3), "x");
        if (!read.ok) expect(read.errors.length).toBeGreaterThan(0);
      }),
      { numRuns: 60 },
    );
  });
});

describe("sheets of the house", () => {
  const engine: Spec["engine"] = { ...DEMO_SPEC.engine, oiling: "pressure" };
  it("the demo sheet is valid and its limits have ids of their own", () => {
    expect(specSchema.safeParse(DEMO_SPEC).success).toBe(true);
    const ids = DEMO_SPEC.limits.map((limit) => limit.id);
    expect(new Set(ids).size).toBe(ids.length);
  });
  it("a blank sheet is valid, says that its limits are common practice, and gives no torque", () => {
    const blank = blankSpec({
      id: "new-engine",
      name: "New engine",
      engine,
      bore: "3.5000",
      stroke: "4.000",
      crankpin: "1.7500",
    });
    expect(specSchema.safeParse(blank).error).toBeUndefined();
    expect(blank.limits.length).toBeGreaterThan(15);
    for (const limit of blank.limits) expect(limit.source.cite).toContain("maker's figure");
    expect(blank.fasteners).toEqual({});
    expect(blank.limits.some((limit) => limit.perInchOf === "crankpin")).toBe(true);
    // Nothing is known of the mains, so nothing is claimed of their clearance.
    expect(blank.limits.some((limit) => limit.perInchOf === "main_journal")).toBe(false);
    expect(blank.proofs.some((proof) => proof.id === "dipper")).toBe(false);
  });
});
