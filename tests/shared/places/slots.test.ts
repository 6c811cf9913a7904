// A slot is one row: made up here, it is found in key, schema, label, list, grammar and speech, and nothing else was touched.
import { describe, expect, test, vi } from "vitest";
import { z } from "zod";

vi.mock("../../../shared/places/slots.ts", async (original) => {
  const module = await original<typeof import("../../../shared/places/slots.ts")>();
  const port = {
    schema: z.enum(["transfer", "boost"]),
    values: () => ["transfer", "boost"],
    label: (value: string) => `${value} port`,
    words: { transfer: "transfer", boost: "boost" },
  };
  const slots = { ...module.SLOTS, port };
  return { ...module, SLOTS: slots, slotRow: (slot: keyof typeof slots) => slots[slot] };
});

// A quantity that the slot places, and words that can be said.
vi.mock("../../../shared/quantities/areas/bores.ts", async (original) => {
  const module = await original<typeof import("../../../shared/quantities/areas/bores.ts")>();
  const row = { id: "score_depth", label: "Port chamfer", said: "chamfer", spoken: ["chamfer"], needs: ["port"], may: [] };
  return { ...module, BORES: module.BORES.map((other) => (other.id === row.id ? { ...other, ...row } : other)) };
});
vi.mock("../../../extractors/hearing/words/trade.ts", async (original) => {
  const module = await original<typeof import("../../../extractors/hearing/words/trade.ts")>();
  const words = { transfer: ["T R AE N S F ER"], boost: ["B UW S T"], chamfer: ["CH AE M F ER"] };
  return { TRADE_WORDS: { ...module.TRADE_WORDS, ...words } };
});

const { placeKey, placeLabel, placeSchema, valuesOf } = await import("../../../shared/places/places.ts");
const { DEMO_SPEC } = await import("../../../shared/spec/demo-engine.ts");
const { parse } = await import("../../../extractors/speech/index.ts");
const { placeWords } = await import("../../../extractors/speech/say/readBack.ts");
const { grammarsFor } = await import("../../../extractors/hearing/grammar/index.ts");
const { pathsOf } = await import("../../../extractors/hearing/grammar/walk.ts");

describe("a made-up slot", () => {
  const place = placeSchema.parse({ cylinder: 2, port: "boost" });

  test("keeps two places apart by their key", () => {
    expect(placeKey(place)).toBe("cylinder=2;port=boost");
    expect(placeKey(placeSchema.parse({ cylinder: 2, port: "transfer" }))).not.toBe(placeKey(place));
  });

  test("refuses what is no value of it", () => {
    expect(placeSchema.safeParse({ port: "exhaust" }).success).toBe(false);
  });

  test("is read and said", () => {
    expect(placeLabel(place)).toBe("cylinder 2, boost port");
    expect(placeWords(place)).toBe("two boost");
  });

  test("has its values in a list", () => {
    expect(valuesOf("port" as "ring", DEMO_SPEC, {})).toEqual(["transfer", "boost"]);
    const { readings } = parse("chamfer, ten thou, twelve thou", {}, DEMO_SPEC);
    expect(readings.map(({ place: of, digits }) => [placeKey(of), digits])).toEqual([
      ["port=transfer", "0.010"],
      ["port=boost", "0.012"],
    ]);
  });

  test("is parsed, and asked for where it was not said", () => {
    expect(parse("chamfer boost ten thou", {}, DEMO_SPEC).readings).toMatchObject([
      { place: { port: "boost" }, digits: "0.010" },
    ]);
    expect(parse("chamfer ten thou", {}, DEMO_SPEC).questions).toMatchObject([{ options: ["transfer", "boost"] }]);
  });

  test("has a path through the grammar", () => {
    const starts = grammarsFor(DEMO_SPEC, {}).map(({ start }) => start());
    const paths = (text: string) => starts.flatMap((start) => [...pathsOf(start, text.split(" "))]);
    expect(paths("chamfer boost ten thou").length).toBeGreaterThan(0);
    expect(paths("chamfer top ten thou")).toEqual([]);
  });
});
