// A sheet changed row by row: what the file refuses is refused here with the same words, and every row of every part can be changed.
import { describe, expect, it } from "vitest";
import { changesBetween, edited, emptyRow, type Flat, moved, rowsOf } from "../../../shared/spec/edit/edit.ts";
import { PARTS, partNamed } from "../../../shared/spec/edit/parts.ts";
import { EXAMPLES } from "../../../shared/spec/examples/index.ts";
import { readSpecFile, writeSpecFile } from "../../../shared/spec/read.ts";
import type { Spec } from "../../../shared/spec/spec.ts";
import { planOf } from "../../../shared/steps/plan.ts";

const { six, twin } = EXAMPLES;
const keyOf = (spec: Spec, part: string, name: string) => rowsOf(spec, partNamed(part)).find((row) => row.name === name)?.key;

/** The row of a part with some fields typed over. */
function typed(spec: Spec, part: string, name: string, change: Flat) {
  const row = rowsOf(spec, partNamed(part)).find((one) => one.name === name);
  return edited(spec, partNamed(part), row?.key, { ...row?.flat, ...change });
}

describe("changing a row", () => {
  it.each(Object.entries(EXAMPLES).flatMap(([name, spec]) => PARTS.map((part) => [name, part.id, spec, part] as const)))(
    "of the %s's %s with nothing typed over changes nothing",
    (_name, _id, spec, part) => {
      for (const { key, flat } of rowsOf(spec, part)) {
        const result = edited(spec, part, key, flat);
        expect(result).toMatchObject({ ok: true });
        if (result.ok) expect(changesBetween(spec, result.spec)).toEqual([]);
      }
    },
  );

  it.each([
    [
      "a limit from 0.005 to 0.001",
      "limits",
      "rod side clearance",
      { "accept.low": "0.005", "accept.high": "0.001" },
      "Expected a low at or below the high of 0.001, got 0.005",
    ],
    ["a limit in words", "limits", "rod side clearance", { "accept.high": "two thou" }, "Expected a decimal number in quotes"],
    [
      "a limit in a unit of something else",
      "limits",
      "rod side clearance",
      { unit: "psi" },
      'Expected a unit of length for rod_side_clearance, got "psi"',
    ],
    [
      "a limit at a place there is not",
      "limits",
      "rod side clearance",
      { where: "ring oil" },
      "Invalid input: expected object, received string",
    ],
    [
      "a bore of nothing",
      "nominals",
      "bore",
      { "": "0" },
      "Expected bore of 0.39 to 24 in, got 0 in: write the unit behind a figure in mm",
    ],
    [
      "a bore of 68",
      "nominals",
      "bore",
      { "": "68.00" },
      "Expected bore of 0.39 to 24 in, got 68.00 in: write the unit behind a figure in mm",
    ],
    [
      "two cylinders with a firing order of six",
      "engine",
      "engine",
      { cylinders: "2" },
      "Expected each of 2 cylinders once, got 1-5-3-6-2-4",
    ],
    ["cylinders in words", "engine", "engine", { cylinders: "six" }, "Invalid input: expected number, received NaN"],
    ["stages that fall", "fasteners", "head", { stages: "20 52 38" }, "Expected stages that rise, got 38 after 52"],
    [
      "a torque from 55 to 50",
      "fasteners",
      "head",
      { low: "55", high: "50" },
      "Expected a low at or below the high of 50, got 55",
    ],
    ["a gasket area in mm", "figures", "gasket area", { unit: "mm" }, 'Expected a unit of area for gasket_area, got "mm"'],
    [
      "a reading for each ring of a crank",
      "expected",
      "crank end float at end float",
      { each: "ring" },
      'Expected one of no slots for crank_end_float, got "ring"',
    ],
    [
      "millimetres for a sheet of inches",
      "sheet",
      "sheet",
      { units: "metric" },
      "Expected bore of 10 to 600 mm, got 3.2500 mm: write the unit behind a figure in in",
    ],
  ] as const)("%s is refused as the file would", (_what, part, name, change, say) => {
    const result = typed(six, part, name, change as Flat);
    expect(result).toMatchObject({ ok: false, say: expect.stringContaining(say) });
  });

  it("keeps digits, units and fields that the form has not got", () => {
    const result = typed(twin, "nominals", "bore", { "": "68.00 mm 2.697 in" });
    expect(result).toMatchObject({ ok: true, spec: { nominals: { bore: ["68.00mm", "2.697in"] } } });
    const engine = typed(EXAMPLES.twin, "engine", "engine", { headNuts: "5" });
    expect(engine).toMatchObject({ ok: true, spec: { engine: { banks: twin.engine.banks, headNuts: 5 } } });
  });
});

describe("adding and taking away", () => {
  const rod = {
    thread: "7/16-20",
    threadsPerInch: "20",
    majorDiameter: "0.4375",
    castle: "yes",
    low: "35",
    high: "42",
    unit: "ft_lbf",
    stages: "20 38",
    angle: "60",
    order: "3 1 4 2",
    k: "0.18",
    lubricant: "engine oil",
    count: "12",
    "source.kind": "maker",
    "source.cite": "page 12",
  };

  it("a torque with its stages, angle and order; and away again it is the sheet of before", () => {
    const part = partNamed("fasteners");
    const added = edited(six, part, "flywheel", rod);
    expect(added).toMatchObject({
      ok: true,
      spec: {
        fasteners: { flywheel: { castle: true, stages: ["20", "38"], angle: "60", order: [3, 1, 4, 2], threadsPerInch: 20 } },
      },
    });
    if (!added.ok) return;
    expect(changesBetween(six, added.spec)).toEqual(["torque flywheel added"]);
    expect(readSpecFile(writeSpecFile(added.spec), "six.yaml")).toEqual(added);
    const away = edited(added.spec, part, "flywheel", undefined);
    expect(away).toEqual({ ok: true, spec: six });
  });

  it.each([
    [
      "limits",
      { id: "cam_lobe", on: "lobe_wear", "accept.high": "0.005", unit: "in", "source.kind": "shop", "source.cite": "own" },
    ],
    ["expected", { step: "cam", quantity: "cam_runout", each: "" }],
    [
      "proofs",
      { id: "seal", step: "turn_over", title: "Rear seal", each: "engine", "source.kind": "shop", "source.cite": "own" },
    ],
    ["plan", { id: "shop_1", title: "Paint", after: "final_torque" }],
  ] as const)("a row of %s goes in at the end and comes out again", (id, flat) => {
    const part = partNamed(id);
    const before = rowsOf(six, part).length;
    const added = edited(six, part, undefined, { ...emptyRow(part), perInchOf: "", condition: "", where: "", ...flat });
    if (!added.ok) throw new Error(added.say);
    expect(rowsOf(added.spec, part)).toHaveLength(before + 1);
    expect(changesBetween(six, added.spec)).toHaveLength(1);
    const away = edited(added.spec, part, before, undefined);
    if (!away.ok) throw new Error(away.say);
    expect(changesBetween(six, away.spec)).toEqual([]);
  });

  it("a name that is taken, and none at all, are refused", () => {
    const taken = rowsOf(six, partNamed("limits"))[0];
    expect(edited(six, partNamed("limits"), undefined, taken?.flat)).toMatchObject({
      ok: false,
      say: expect.stringContaining("a second time"),
    });
    expect(edited(six, partNamed("figures"), "", { value: "1" })).toMatchObject({
      ok: false,
      say: "Expected a name for the figure, got none",
    });
  });
});

describe("the plan by touch", () => {
  const plan = partNamed("plan");
  const asksNothing: Spec = { ...six, expected: [], proofs: [] };

  it("a step taken away leaves what rested on it resting on what it rested on", () => {
    const away = edited(asksNothing, plan, keyOf(six, "plan", "cam bearings"), undefined);
    if (!away.ok) throw new Error(away.say);
    expect(planOf(away.spec).find(({ id }) => id === "cam")?.after).toEqual(["crack_check"]);
    expect(changesBetween(asksNothing, away.spec)).toContain("step cam bearings taken away");
  });
  it("one that readings are asked of is not taken away", () => {
    expect(edited(six, plan, keyOf(six, "plan", "rings"), undefined)).toMatchObject({
      ok: false,
      say: 'Expected a step of the plan, got "rings"',
    });
  });
  it("a step goes earlier as long as it rests on none that it passes", () => {
    const pump = Number(keyOf(six, "plan", "oil pump"));
    const once = moved(six, plan, pump, -1);
    if (!once.ok) throw new Error(once.say);
    expect(planOf(once.spec)[pump - 1]?.id).toBe("oil_pump");
    expect(changesBetween(six, once.spec)).toEqual(["steps of the job in another order"]);
    const bores = Number(keyOf(six, "plan", "bores"));
    expect(moved(six, plan, bores, -1)).toMatchObject({ ok: false, say: "Expected soak before bores, got soak behind it" });
  });
});

it("old and new stand in what is said of a change", () => {
  const result = typed(six, "limits", "rod side clearance", { "accept.high": "0.014" });
  if (!result.ok) throw new Error(result.say);
  expect(changesBetween(six, result.spec)).toEqual(["limit rod side clearance: good to 0.014, was 0.012"]);
});
