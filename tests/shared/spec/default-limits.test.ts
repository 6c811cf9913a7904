// Every default limit with its source class, as a table: what a blank sheet and the demo's sheet hold figures against, and by what right.
import { afterAll, describe, expect, it } from "vitest";
import { FIGURES } from "../../../shared/rules/figures/figures.ts";
import { blankSpec } from "../../../shared/spec/blank.ts";
import { DEMO_SPEC } from "../../../shared/spec/demo-engine.ts";
import { type Limit, type Spec, sourceSchema } from "../../../shared/spec/spec.ts";

const blank = (piston: string, engine: Spec["engine"] = DEMO_SPEC.engine): Spec =>
  blankSpec({
    id: "blank",
    name: "Blank",
    engine,
    bore: "3.8750",
    stroke: "4.500",
    mainJournal: "2.0000",
    crankpin: "1.8750",
    pin: "0.8750",
    materials: { ...DEMO_SPEC.materials, piston },
  });

/** All that the demo's engine has not got. */
const MODERN: Spec["engine"] = {
  ...DEMO_SPEC.engine,
  layout: "overhead_valve",
  bearings: { main: "shell", rod: "roller" },
  oiling: "pressure",
};

const SHEETS = {
  "blank, iron pistons": blank("grey_iron"),
  "blank, alloy pistons": blank("piston_alloy"),
  "blank, shells, rollers, oil pump, valves in the head": blank("grey_iron", MODERN),
  demo: DEMO_SPEC,
} as const;

const pair = (one: Limit["accept"] | undefined): string =>
  one === undefined ? "" : `${one.low ?? ""} .. ${one.high ?? ""}`.trim();
const where = ({ where: at = {}, condition }: Limit): string =>
  [...Object.values(at), condition ?? ""].filter((part) => part !== "").join(" ");

const rows = Object.entries(SHEETS).flatMap(([sheet, spec]) =>
  spec.limits.map((limit) => ({
    sheet,
    limit: limit.id,
    of: where(limit),
    accept: pair(limit.accept),
    reject: pair(limit.reject),
    unit: limit.perInchOf === undefined ? limit.unit : `in by the inch of ${limit.perInchOf}`,
    class: limit.source.kind,
    source: limit.source.cite,
  })),
);

afterAll(() => {
  const head = ["sheet", "limit", "of", "accept", "reject", "unit", "class", "source"] as const;
  const lines = [head.join(" | "), ...rows.map((row) => head.map((column) => row[column]).join(" | "))];
  process.stdout.write(`${lines.join("\n")}\n`);
});

describe("default limits", () => {
  it.each(rows.map((row) => [row.sheet, row.limit, row] as const))(
    "%s: %s names its source and its class",
    (_sheet, _limit, row) => {
      expect(sourceSchema.shape.kind.options).toContain(row.class);
      expect(row.source.length).toBeGreaterThan(10);
      // What is common practice says so, or names the manual whose limit for a like engine lies near it.
      if (row.class === "common_practice") expect(row.source).toMatch(/^common practice(, no source|: TM )/);
    },
  );

  it("no blank sheet claims a maker's or a standard's word for what is common practice", () => {
    const claimed = rows.filter(({ sheet }) => sheet.startsWith("blank")).map((row) => row.class);
    expect([...new Set(claimed)]).toEqual(["common_practice"]);
  });

  it("the demo's own are the invented shop's, never a maker's", () => {
    for (const row of rows.filter(({ sheet }) => sheet === "demo")) expect(["shop", "common_practice"]).toContain(row.class);
  });

  it("each speaks of a figure there is", () => {
    for (const spec of Object.values(SHEETS)) for (const { on } of spec.limits) expect(FIGURES.has(on)).toBe(true);
  });
});
