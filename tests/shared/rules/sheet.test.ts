// The demo sheet against the rules: every limit speaks of a figure there is, in a unit it can be held in, and can pass and fail.
import { describe, expect, it } from "vitest";
import { QUANTITIES } from "../../../shared/quantities/registry.ts";
import { FIGURES } from "../../../shared/rules/figures/figures.ts";
import { blankSpec } from "../../../shared/spec/blank.ts";
import { DEMO_SPEC } from "../../../shared/spec/demo-engine.ts";
import { CAUTIONS, cautionsFor, DEFER } from "../../../shared/steps/cautions.ts";
import { STEP_IDS } from "../../../shared/steps/steps.ts";
import { sameDimension } from "./same-dimension.ts";

const BLANK = blankSpec({
  id: "blank",
  name: "Blank",
  engine: DEMO_SPEC.engine,
  bore: "3.5",
  stroke: "4",
  mainJournal: "2",
  crankpin: "1.75",
});

describe.each([
  ["demo", DEMO_SPEC],
  ["blank", BLANK],
] as const)("%s sheet", (_name, spec) => {
  it.each(spec.limits.map((limit) => [limit.id, limit] as const))("limit %s is on a figure that is worked out", (_id, limit) => {
    const figure = FIGURES.get(limit.on);
    expect(figure).toBeDefined();
    if (figure !== undefined) expect(sameDimension(limit.unit, figure.unit)).toBe(true);
    const { low, high } = limit.accept;
    expect(low !== undefined || high !== undefined).toBe(true);
    if (low !== undefined && high !== undefined) expect(Number(low)).toBeLessThan(Number(high));
    // The reject limit lies outside the accepted range, or it would fail what passes.
    if (limit.reject?.low !== undefined && low !== undefined) expect(Number(limit.reject.low)).toBeLessThanOrEqual(Number(low));
    if (limit.reject?.high !== undefined && high !== undefined)
      expect(Number(limit.reject.high)).toBeGreaterThanOrEqual(Number(high));
  });

  it("asks for readings at places that the quantity has", () => {
    for (const row of spec.expected) {
      const quantity = QUANTITIES[row.quantity];
      const allowed = new Set<string>([...quantity.needs, ...(quantity.needsOneOf ?? []), ...quantity.may]);
      for (const slot of row.each) expect(allowed).toContain(slot);
    }
  });
});

describe("cautions", () => {
  it.each(STEP_IDS)("%s ends by deferring to the maker, once", (step) => {
    const cautions = cautionsFor(step);
    // Every step of the job has something that can hurt.
    expect(cautions.length).toBeGreaterThan(1);
    expect(cautions.at(-1)).toBe(DEFER);
    expect(cautions.filter((text) => text === DEFER)).toHaveLength(1);
  });
  it.each([
    ["first_run", /magneto stores no charge/],
    ["first_run", /ground its primary/],
    ["turn_over", /live whenever the shaft can turn/],
    ["turn_over", /spark fully retarded/],
    ["first_run", /Compression test: ignition grounded/],
    ["intake", /Compression test: ignition grounded/],
    ["first_run", /coolant scalds/],
    ["first_run", /hydrogen/],
    ["crack_check", /air under pressure bursts/],
    ["soak", /chocked/],
    ["bores", /knife sharp/],
    ["crankshaft", /fingers clear/],
    ["pistons", /gloves/],
    ["rings", /eye protection/],
    ["splash", /nobody turns it/],
  ] as const)("%s says %s", (step, what) => {
    expect(cautionsFor(step).join(" ")).toMatch(what);
  });
  it("never tells to discharge a magneto, and are short", () => {
    for (const caution of CAUTIONS) {
      expect(caution.text).not.toMatch(/discharge the magneto/i);
      expect(caution.text.length).toBeLessThan(170);
    }
  });
});
