// The grammar is written from the registry and the spec sheet: all it can say is in the dictionary and means something.
import fc from "fast-check";
import { describe, expect, it } from "vitest";
import { PHONES } from "../../../extractors/hearing/acoustic/phones.ts";
import { seeded } from "../../../extractors/hearing/audio/noise.ts";
import type { State } from "../../../extractors/hearing/grammar/automaton.ts";
import { grammarsFor } from "../../../extractors/hearing/grammar/index.ts";
import { follow, randomSentence, reachable, wordsOf } from "../../../extractors/hearing/grammar/walk.ts";
import { type Heard, understand } from "../../../extractors/hearing/index.ts";
import { sentenceOf } from "../../../extractors/hearing/text.ts";
import { isSayable, saidAs } from "../../../extractors/hearing/words/dictionary.ts";
import { parse } from "../../../extractors/speech/index.ts";
import type { Context } from "../../../shared/events/reading.ts";
import { ALL_QUANTITIES } from "../../../shared/quantities/registry.ts";
import { DEMO_SPEC } from "../../../shared/spec/demo-engine.ts";
import { STEPS } from "../../../shared/steps/steps.ts";

const last = { quantity: "ring_end_gap", place: { cylinder: 2, ring: "top" }, value: 0.012, unit: "in" } as const;
/** Built once a grammar, not once a test. */
const built = new Map<string, State>();
function startOf(key: string, start: () => State): State {
  const known = built.get(key) ?? start();
  built.set(key, known);
  return known;
}
const CONTEXTS: readonly Context[] = [
  {},
  { step: "rings" },
  { quantity: "bore_diameter", place: { cylinder: 3, depth: "top", axis: "thrust" } },
  { quantity: "ring_end_gap", place: { cylinder: 2, ring: "top" }, last },
  { quantity: "fastener_torque", place: { fastener: "rod", rod: 2, nut: "a" } },
];
const GRAMMARS = CONTEXTS.flatMap((context) =>
  grammarsFor(DEMO_SPEC, context).map(({ key, start }) => ({ context, key, start: startOf(key, start) })),
);

const wellHeard = (text: string): Heard => ({
  text,
  seconds: 2,
  verdict: "ok",
  chance: 1,
  others: [],
  evidence: { lead: 9, gap: 0.1, haze: 0.05, phones: 20 },
});

const says = (context: Context, words: string) =>
  Math.max(...grammarsFor(DEMO_SPEC, context).map(({ key, start }) => follow(startOf(key, start), words.split(" "))?.final ?? 0));

describe("the grammar", () => {
  it("has a pronunciation for every word, in phones of the network", () => {
    for (const { start } of GRAMMARS)
      for (const word of wordsOf(start)) {
        const said = saidAs(word);
        expect(said.length, word).toBeGreaterThan(0);
        expect(said.flat().filter((phone) => !PHONES.includes(phone))).toEqual([]);
      }
  });

  it("can say every name of the registry and every step", () => {
    const names = [...ALL_QUANTITIES.flatMap(({ spoken }) => spoken), ...STEPS.flatMap(({ spoken }) => spoken)];
    expect(names.filter((name) => !isSayable(name))).toEqual([]);
  });

  it("has no ring for a depth", () => {
    expect(says({}, "ring gap four~p oil~p bottom~p eighteen~v thou~v")).toBeGreaterThan(0);
    expect(says({}, "ring gap four~p oil~p top~p eighteen~v thou~v")).toBe(0);
  });

  it("has no weight of a crankpin", () => {
    expect(says({}, "rod~p four~p weight seven~v two~v nine~v")).toBeGreaterThan(0);
    expect(says({}, "crankpin~p four~p weight seven~v two~v nine~v")).toBe(0);
  });

  it.each([
    ["the name and the place", "ring gap two~p top~p"],
    ["the place before the name", "rod~p three~p side"],
    ["a valve's place before the name", "exhaust~p three~p lash"],
    ["a read-out's name and place", "bore two~p top~p thrust~p"],
    ["a nut's place", "rod~p two~p nut~p b~p"],
    ["a part and its number", "crankpin~p three~p"],
  ])("may break off before the figure: %s", (_, sentence) => {
    for (const context of CONTEXTS) expect(says(context, sentence), JSON.stringify(context)).toBeGreaterThan(0);
  });

  it("says nothing that comes to nothing", () => {
    fc.assert(
      fc.property(fc.integer({ min: 0, max: 2 ** 31 }), fc.nat({ max: GRAMMARS.length - 1 }), (seed, which) => {
        const grammar = GRAMMARS[which];
        if (grammar === undefined) return;
        const text = sentenceOf(randomSentence(grammar.start, seeded(seed)));
        const { readings, questions, commands, notes } = understand(wellHeard(text), grammar.context, DEMO_SPEC);
        expect(readings.length + questions.length + commands.length + notes.length, text).toBeGreaterThan(0);
      }),
      { numRuns: 600, seed: 42 },
    );
  });

  it("says what the parser reads or asks about, but for a few odd sizes", () => {
    const random = seeded(7);
    let unread = 0;
    for (let n = 0; n < 500; n += 1) {
      const grammar = GRAMMARS[n % GRAMMARS.length];
      if (grammar === undefined) continue;
      const text = sentenceOf(randomSentence(grammar.start, random));
      const { readings, questions, commands, notes } = parse(text, grammar.context, DEMO_SPEC);
      if (text !== "note" && readings.length + questions.length + commands.length + notes.length === 0) unread += 1;
    }
    expect(unread / 500).toBeLessThan(0.06);
  });

  it("lets a sign follow only where the quantity takes one", () => {
    expect(says({}, "bush fit three~v tenths~v over~v number~p two~p")).toBeGreaterThan(0);
    expect(says({}, "ring gap two~p top~p three~v thou~v over~v")).toBe(0);
  });

  it("has a place that the engine lacks too, so that it is refused and not heard as one that it has", () => {
    expect(says({}, "main~p four~p clearance two~v thou~v")).toBeGreaterThan(0);
    expect(parse("main four clearance two thou", {}, DEMO_SPEC).questions.map(({ code }) => code)).toEqual(["no_such_place"]);
  });

  it("has a number of a place as its number only", () => {
    expect(says({}, "main three~p clearance two~v thou~v")).toBe(0);
    expect(says({}, "main~p three~p clearance two~v thou~v")).toBeGreaterThan(0);
    expect(says({}, "ring gap four~p third~p twelve~v thou~v")).toBe(0);
  });

  it("hears a bare value only with a quantity open", () => {
    expect(says({ quantity: "bore_diameter", place: { cylinder: 1 } }, "three~v eight~v seven~v five~v oh~v")).toBeGreaterThan(0);
    expect(says({}, "three~v eight~v seven~v five~v oh~v")).toBe(0);
  });

  it("reads out as many digits as the instrument has, no more", () => {
    const bore: Context = { quantity: "bore_diameter", place: { cylinder: 1 } };
    expect(says(bore, "three~v eight~v seven~v five~v oh~v two~v")).toBe(0);
    expect(says(bore, "three~v eight~v seven~v five~v oh~v")).toBeGreaterThan(0);
  });

  it("keeps what is unlikely sayable, so that it is not heard as what is likely", () => {
    expect(says({}, "ring gap two~p top~p fifty~v thou~v")).toBeGreaterThan(0);
    const bore: Context = { quantity: "bore_diameter", place: { cylinder: 1 } };
    expect(says(bore, "three~v eight~v oh~v five~v oh~v")).toBeGreaterThan(0);
    // Inches that the sheet does not have: a slip of the tongue or of the eye, which must come out as it was said.
    expect(says(bore, "nine~v eight~v seven~v five~v oh~v")).toBeGreaterThan(0);
  });

  it("stays small enough for a phone", () => {
    for (const { start, key } of GRAMMARS) expect(reachable(start).length, key).toBeLessThan(7000);
  });
});
