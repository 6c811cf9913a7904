// Every quantity of the registry is fully dressed: names, scale, band, label, read-back, and cases that hold it.
import { describe, expect, test } from "vitest";
import { readBack, spokenForms } from "../../../extractors/speech/index.ts";
import { bandsOf } from "../../../extractors/speech/measure/band.ts";
import { ALL_QUANTITIES } from "../../../shared/quantities/registry.ts";
import { DEMO_SPEC } from "../../../shared/spec/demo-engine.ts";
import { UNITS } from "../../../shared/units/units.ts";
import { TABLES } from "./cases/all.ts";

const accepted = Object.values(TABLES).flatMap((table) => table.accepted);
const refused = Object.values(TABLES).flatMap((table) => table.refused);

describe.each(ALL_QUANTITIES.map((quantity) => [quantity.id, quantity] as const))("%s", (id, quantity) => {
  test("has names, a label, a unit and a scale", () => {
    expect(quantity.spoken.length).toBeGreaterThan(0);
    for (const name of quantity.spoken) expect(name).toMatch(/^[a-z]+( [a-z]+)*$/);
    expect(quantity.label).not.toBe("");
    expect(UNITS[quantity.unit]).toBeDefined();
    expect(["thou", "small_word", "tenths_word", "inch_digits", "fraction", "plain"]).toContain(quantity.scale);
  });

  test("has a band on the demo engine", () => {
    const bands = bandsOf(DEMO_SPEC, id);
    expect(bands.length).toBeGreaterThan(0);
    for (const band of bands) expect(band.low).toBeLessThan(band.high);
  });

  test("can be said and said back", () => {
    const band = bandsOf(DEMO_SPEC, id)[0];
    const middle = ((band?.low ?? 0) + (band?.high ?? 0)) / 2;
    const digits = Math.abs(middle).toFixed(quantity.unit === "in" ? 4 : 0);
    expect(spokenForms(id, digits, quantity.unit).length).toBeGreaterThan(0);
    const said = readBack({ quantity: id, place: {}, unit: quantity.unit, digits, do: "accept" });
    expect(said).toMatch(new RegExp(`^${quantity.said}, .+`));
    expect(said).not.toMatch(/undefined|NaN/);
  });

  test("has at least three accepted sentences and one refused", () => {
    const sentences = accepted.filter((row) => row.is.some(([of]) => of === id)).flatMap((row) => row.say);
    expect(sentences.length).toBeGreaterThanOrEqual(3);
    expect(refused.filter((row) => row.of === id).flatMap((row) => row.say).length).toBeGreaterThanOrEqual(1);
  });
});
