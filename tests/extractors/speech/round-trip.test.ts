// A value said in every style reads back as itself, at the resolution it was said with, over the whole plausible band.
import fc from "fast-check";
import { describe, expect, test } from "vitest";
import { spokenForms } from "../../../extractors/speech/index.ts";
import { bandsOf } from "../../../extractors/speech/measure/band.ts";
import type { Place, PlaceKey } from "../../../shared/places/places.ts";
import { ALL_QUANTITIES } from "../../../shared/quantities/registry.ts";
import type { Quantity } from "../../../shared/quantities/types.ts";
import { DEMO_SPEC } from "../../../shared/spec/demo-engine.ts";
import { read } from "./read.ts";

/** How each slot is said here; the words of a place are no part of what is tried. */
const SAID: Partial<Record<PlaceKey, readonly [words: string, value: string | number]>> = {
  cylinder: ["cylinder two", 2],
  main: ["main two", 2],
  rod: ["rod three", 3],
  ring: ["second ring", "second"],
  valve: ["exhaust", "exhaust"],
  side: ["B side", "b"],
  part: ["head", "head"],
};

function placeFor(quantity: Quantity): { words: string; place: Place } {
  if (quantity.needs.includes("fastener")) return { words: "rod three nut B", place: { fastener: "rod", rod: 3, nut: "b" } };
  const slots: PlaceKey[] = [...quantity.needs];
  if (quantity.needsOneOf !== undefined) slots.push(quantity.needsOneOf.includes("main") ? "main" : "rod");
  // A ring's word stands right before its name's "ring", as it is said: "exhaust cylinder two".
  slots.sort((a, b) => (a === "valve" ? -1 : b === "valve" ? 1 : 0));
  const place: Record<string, string | number> = {};
  const words: string[] = [];
  for (const slot of slots) {
    const said = SAID[slot];
    if (said === undefined) continue;
    // The crankpin's own name is its noun.
    words.push(quantity.id === "crankpin_diameter" && slot === "rod" ? "number three" : said[0]);
    place[slot] = said[1];
  }
  return { words: words.join(" "), place };
}

/** The step figures are said in: the instrument's, or coarser where nobody reads it finer. */
function stepOf(quantity: Quantity): { step: number; places: number } {
  if (quantity.unit === "cc") return { step: 0.5, places: 1 };
  if (quantity.unit !== "in") return { step: 1, places: 0 };
  if (quantity.scale === "fraction") return { step: 1 / 64, places: 6 };
  if (quantity.scale === "inch_digits")
    return quantity.resolution <= 0.0001 ? { step: 0.0001, places: 4 } : { step: 0.001, places: 3 };
  if (quantity.scale === "thou" && quantity.resolution >= 0.0005) return { step: 0.0005, places: 4 };
  return { step: 0.0001, places: 4 };
}

function signWord(quantity: Quantity, negative: boolean): string {
  switch (quantity.sign) {
    case "fit":
      return negative ? "tight" : "loose";
    case "deck":
      return negative ? "below" : "above";
    case "oversize":
      return "over";
    case "undersize":
      return "under";
    case "deviation":
      return negative ? "short" : "long";
    default:
      return "";
  }
}

/** Figures of any value in the band, as whole steps. */
function inBand(quantity: Quantity): fc.Arbitrary<number> {
  const { step } = stepOf(quantity);
  const bands = bandsOf(DEMO_SPEC, quantity.id).map((band) => {
    // Whole inches of crack are no crack of these parts, and "crack, one" is a place.
    const high = quantity.id === "crack_indication" ? 1 - step : band.high;
    const low = quantity.id === "crack_indication" ? step : band.low;
    return fc.integer({ min: Math.ceil(low / step - 1e-6), max: Math.floor(high / step + 1e-6) });
  });
  // Zero has its own words and no sign.
  return fc.oneof(...bands).filter((n) => n !== 0);
}

describe.each(ALL_QUANTITIES.map((quantity) => [quantity.id, quantity] as const))("%s", (id, quantity) => {
  test("reads every style of every value in its band", () => {
    const { words, place } = placeFor(quantity);
    const { step, places } = stepOf(quantity);
    const name = quantity.spoken[0] ?? "";
    fc.assert(
      fc.property(inBand(quantity), fc.nat(), fc.boolean(), (n, pick, nameFirst) => {
        const value = n * step;
        const written = Math.abs(value).toFixed(places);
        const digits =
          quantity.scale === "inch_digits" ? written : written.includes(".") ? written.replace(/\.?0+$/, "") : written;
        const forms = spokenForms(id, digits, quantity.unit);
        const form = forms[pick % forms.length] ?? "";
        const figure = `${form} ${signWord(quantity, value < 0)}`.trim();
        const text = nameFirst ? `${name} ${words}, ${figure}` : `${figure}, ${name} ${words}`;
        const { parsed, told } = read(text.replace(/\s+/g, " ").replace(" ,", ",").trim());
        expect(parsed.readings.length, told).toBe(1);
        const reading = parsed.readings[0];
        expect(reading?.quantity, told).toBe(id);
        expect(reading?.place, told).toMatchObject(place);
        expect(reading?.unit, told).toBe(quantity.unit);
        expect(reading?.value, told).toBe(Number((value < 0 ? "-" : "") + digits));
      }),
      { numRuns: 150 },
    );
  });
});
