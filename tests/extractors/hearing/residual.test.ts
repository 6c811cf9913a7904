// What the recogniser is given says just what the grammar says, at the same cost, in fewer states. The small automata are worked by
// hand; F. Denis, A. Lemay, A. Terlutte, "Residual finite state automata" (Fundamenta Informaticae 51, 2002) is where the idea is from.
import fc from "fast-check";
import { describe, expect, it } from "vitest";
import { seeded } from "../../../extractors/hearing/audio/noise.ts";
import { GRAMMAR_WEIGHT, WORD_PRICE } from "../../../extractors/hearing/engine/decoder.ts";
import { AutomatonBuilder, chain, oneOf, type State, weighted, words } from "../../../extractors/hearing/grammar/automaton.ts";
import { follow, randomSentence, reachable, toFsg } from "../../../extractors/hearing/grammar/fsg.ts";
import { buildGrammar } from "../../../extractors/hearing/grammar/index.ts";
import { residualsOf } from "../../../extractors/hearing/grammar/residual.ts";
import { fullDictionary } from "../../../extractors/hearing/words/dictionary.ts";
import { apart, JOINED, joinOf } from "../../../extractors/hearing/words/joined.ts";
import type { Context } from "../../../shared/events/reading.ts";
import { DEMO_SPEC } from "../../../shared/spec/demo-engine.ts";
import { type FsgText, readFsg } from "./fsg-text.ts";

const jointWeight = WORD_PRICE ** (1 / GRAMMAR_WEIGHT);

/** The best weight of a sentence by the text, joints left out; 0 where it has none. */
function bestOf(fsg: FsgText, sentence: readonly string[], at = 0): number {
  let best = 0;
  for (const { to, weight, words: said } of fsg.get(at) ?? []) {
    if (said.length === 0) {
      if (sentence.length === 0) best = Math.max(best, weight);
    } else if (said.every((word, index) => word === sentence[index])) {
      const joints = jointWeight ** (said.length - 1);
      best = Math.max(best, (weight / joints) * bestOf(fsg, sentence.slice(said.length), to));
    }
  }
  return best;
}

function weightOf(start: State, sentence: readonly string[]): number {
  let weight = 1;
  let state: State | undefined = start;
  for (const word of sentence) {
    const arc: State["arcs"][number] | undefined = state.arcs.find((to) => to.word === word);
    if (arc === undefined) return 0;
    weight *= arc.weight;
    state = arc.to;
  }
  return weight * state.final;
}

/** A sentence by the text. */
function walk(fsg: FsgText, random: () => number): readonly string[] {
  const sentence: string[] = [];
  let at = 0;
  for (;;) {
    const next = fsg.get(at) ?? [];
    const chosen = next[Math.floor(random() * next.length)];
    if (chosen === undefined || chosen.words.length === 0) return sentence;
    sentence.push(...chosen.words);
    at = chosen.to;
  }
}

const CONTEXTS: readonly Context[] = [
  {},
  { step: "rings" },
  { step: "deck" },
  { step: "main_bearings", quantity: "bearing_clearance", place: { main: 2 } },
];
const GRAMMARS = CONTEXTS.map((context) => buildGrammar(DEMO_SPEC, context, context.step === undefined ? "all" : "near"));

/** Each word may be off by what counts as the same weight, more than once where parts of parts stand for a state. */
const OFF_A_WORD = 0.1;

describe("an automaton with fewer states", () => {
  it("leaves out the state that two others together are", () => {
    const rest = (...texts: string[]) => oneOf(texts.map((text) => words(text)));
    const start = new AutomatonBuilder().compile(
      oneOf([
        chain(words("two"), rest("thou up", "tenths up")),
        chain(words("three"), rest("thou up")),
        chain(words("four"), rest("tenths up")),
      ]),
    );
    expect(reachable(start)).toHaveLength(6);
    const states = residualsOf(start, reachable(start));
    expect(states).toHaveLength(5);
    expect(states[0]?.ways.filter(({ word }) => word === "two")).toHaveLength(2);
  });

  it("keeps a state whose weights no two others have", () => {
    const one = words("thou up");
    const other = words("tenths up");
    const start = new AutomatonBuilder().compile(
      oneOf([chain(words("two"), weighted([one, 1], [other, 0.1])), chain(words("three"), one), chain(words("four"), other)]),
    );
    const fsg = readFsg(toFsg(start));
    expect(bestOf(fsg, ["two", "tenths", "up"])).toBeCloseTo(0.1, 3);
    expect(bestOf(fsg, ["two", "thou", "up"])).toBeCloseTo(1, 3);
    expect(bestOf(fsg, ["three", "tenths", "up"])).toBe(0);
  });

  it("lets no state stand for one in which a way is more usual", () => {
    const one = words("thou up");
    const other = words("tenths up");
    const start = new AutomatonBuilder().compile(
      oneOf([chain(words("two"), weighted([one, 1], [other, 0.1])), chain(words("three"), oneOf([one, other]))]),
    );
    const fsg = readFsg(toFsg(start));
    expect(bestOf(fsg, ["two", "thou", "up"])).toBeCloseTo(1, 3);
    expect(bestOf(fsg, ["two", "tenths", "up"])).toBeCloseTo(0.1, 3);
  });

  it.each(GRAMMARS.map((grammar, index) => [CONTEXTS[index], grammar] as const))(
    "says what the grammar of %j says",
    (_, { start, fsg }) => {
      const text = readFsg(fsg);
      fc.assert(
        fc.property(fc.integer({ min: 1 }), (seed) => {
          const sentence = randomSentence(start, seeded(seed));
          // A note goes on for as long as somebody speaks.
          fc.pre(sentence.length < 14);
          const ratio = bestOf(text, sentence) / weightOf(start, sentence);
          expect(Math.abs(Math.log(ratio)), sentence.join(" ")).toBeLessThan(OFF_A_WORD * (sentence.length + 1));
        }),
        { numRuns: 150 },
      );
    },
  );

  it.each(GRAMMARS.map((grammar, index) => [CONTEXTS[index], grammar] as const))(
    "says no more than that of %j",
    (_, { start, fsg }) => {
      const text = readFsg(fsg);
      fc.assert(
        fc.property(fc.integer({ min: 1 }), (seed) => {
          const sentence = walk(text, seeded(seed));
          expect(follow(start, sentence)?.final ?? 0, sentence.join(" ")).toBeGreaterThan(0);
        }),
        { numRuns: 300 },
      );
    },
  );
});

describe("words that are said in one go", () => {
  it.each([
    [["foot~v", "pounds~v"], "foot_pounds~v"],
    [["just~v", "under~v"], "just_under~v"],
    [["ring", "gap"], "ring_gap"],
    [["foot~v", "pounds~p"], undefined],
    [["pounds~v", "foot~v"], undefined],
    [["and~v", "a~v", "half~v"], undefined],
  ])("%j together are %s", (said, entry) => {
    expect(joinOf(said).entry).toBe(entry);
    if (entry !== undefined) expect(apart(entry)).toEqual(said);
  });

  it("are in the dictionary with every way that their words are said", () => {
    const lines = fullDictionary().split("\n");
    for (const entry of JOINED.keys())
      expect(
        lines.some((line) => line.startsWith(`${entry} `)),
        entry,
      ).toBe(true);
    const again = lines.filter((line) => /^say_again[ (]/.test(line)).map((line) => line.replace(/^\S+ /, ""));
    expect(again).toEqual(["S EY AH G EH N", "S EY AH G EY N"]);
  });
});
