// The grammar is written from the registry and the spec sheet: all it can say is in the dictionary and means something.
import fc from "fast-check";
import { describe, expect, it } from "vitest";
import { seeded } from "../../../extractors/hearing/audio/noise.ts";
import { follow, randomSentence, wordsOf } from "../../../extractors/hearing/grammar/fsg.ts";
import { buildGrammar, namedIn } from "../../../extractors/hearing/grammar/index.ts";
import { type Heard, understand } from "../../../extractors/hearing/index.ts";
import { sentenceOf } from "../../../extractors/hearing/text.ts";
import { dictionaryFor, fullDictionary, isSayable, PHONES, phoneWord } from "../../../extractors/hearing/words/dictionary.ts";
import { parse } from "../../../extractors/speech/index.ts";
import type { Context } from "../../../shared/events/reading.ts";
import { ALL_QUANTITIES } from "../../../shared/quantities/registry.ts";
import { DEMO_SPEC } from "../../../shared/spec/demo-engine.ts";
import { STEPS } from "../../../shared/steps/steps.ts";

const last = { quantity: "ring_end_gap", place: { cylinder: 2, ring: "top" }, value: 0.012, unit: "in" } as const;
const CONTEXTS: readonly Context[] = [
  {},
  { step: "rings" },
  { quantity: "bore_diameter", place: { cylinder: 3, depth: "top", axis: "thrust" } },
  { quantity: "ring_end_gap", place: { cylinder: 2, ring: "top" }, last },
  { quantity: "fastener_torque", place: { fastener: "rod", rod: 2, nut: "a" } },
];
const GRAMMARS = CONTEXTS.map((context) => ({
  context,
  ...buildGrammar(DEMO_SPEC, context, context.step === undefined ? "all" : "near"),
}));

const wellHeard = (text: string): Heard => ({
  text,
  seconds: 2,
  words: [],
  doubt: { words: [], others: [], agreement: 1, strangeness: 200 },
  snr: 30,
  verdict: "ok",
  warp: 1,
});

const says = (context: Context, words: string) => {
  const { start } = buildGrammar(DEMO_SPEC, context);
  return follow(start, words.split(" "))?.final ?? 0;
};

describe("the grammar", () => {
  it("has a pronunciation for every word, in phones of the model", () => {
    for (const { start } of GRAMMARS) expect(() => dictionaryFor(wordsOf(start))).not.toThrow();
    const phones = new Set(
      fullDictionary()
        .split("\n")
        .flatMap((line) => line.split(" ").slice(1)),
    );
    phones.delete("");
    expect([...phones].filter((phone) => !PHONES.includes(phone))).toEqual([]);
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

  it.each(["rod~p three~p side", "end float", "crankpin~p three~p"])("may break off beside what is open too: %s", (sentence) => {
    const { start } = buildGrammar(DEMO_SPEC, { quantity: "ring_end_gap", place: { cylinder: 2, ring: "top" } }, "near");
    expect(follow(start, sentence.split(" "))?.final ?? 0).toBeGreaterThan(0);
  });

  it.each([
    ["a nut", "rod~p two~p nut~p b~p", "fastener_torque", "rod~p two~p nut~p b~p thirty~v nine~v foot~v pounds~v"],
    [
      "a torqued nut",
      "torque rod~p two~p nut~p b~p",
      "fastener_torque",
      "torque rod~p two~p nut~p b~p thirty~v nine~v foot~v pounds~v",
    ],
    ["a temperature", "block~p is at", "part_temperature", "block~p is at sixty~v eight~v degrees~v"],
    ["a face", "deck~p flatness", "flatness", "deck~p flatness two~v thou~v"],
  ] as const)(
    "begins a sentence about %s beside what is open, and says it all once that was named",
    (_, beginning, about, whole) => {
      const near = buildGrammar(DEMO_SPEC, { step: "rings" }, "near").start;
      expect(follow(near, [...beginning.split(" "), ...Array(5).fill(phoneWord("AH"))])?.final ?? 0).toBeGreaterThan(0);
      expect(follow(near, whole.split(" "))).toBeUndefined();
      expect(namedIn(beginning.split(" "))).toContain(about);
      const { start } = buildGrammar(DEMO_SPEC, {}, { about: [about] });
      expect(follow(start, whole.split(" "))?.final ?? 0).toBeGreaterThan(0);
    },
  );

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

  it("has only the places the engine has", () => {
    expect(says({}, "main three~p clearance two~v thou~v")).toBe(0);
    expect(says({}, "main~p three~p clearance two~v thou~v")).toBeGreaterThan(0);
    expect(says({}, "main~p four~p clearance two~v thou~v")).toBe(0);
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
    const sizes = GRAMMARS.map(({ fsg }) => Number(/^NUM_STATES (\d+)$/m.exec(fsg)?.[1]));
    expect(Math.max(...sizes)).toBeLessThan(1850);
    expect(fullDictionary().length).toBeLessThan(60_000);
  });
});
