// Sentences of the grammar that say the same in nearly the same sounds. The grammars below are made by hand.
import fc from "fast-check";
import { describe, expect, it } from "vitest";
import { AutomatonBuilder, chain, maybe, oneOf, tagged, words } from "../../../extractors/hearing/grammar/automaton.ts";
import { randomSentence } from "../../../extractors/hearing/grammar/fsg.ts";
import { buildGrammar } from "../../../extractors/hearing/grammar/index.ts";
import { otherWays, soundSame } from "../../../extractors/hearing/grammar/other-ways.ts";
import { plainWord } from "../../../extractors/hearing/words/plain-word.ts";
import { DEMO_SPEC } from "../../../shared/spec/demo-engine.ts";

const DIGIT = oneOf(["one", "three", "seven", "eight", "oh"].map((word) => words(word)));
const PAIR = chain(words("eighty"), maybe(words("seven")));
const FIGURE = tagged(chain(DIGIT, oneOf([chain(DIGIT, DIGIT), chain(PAIR, maybe(DIGIT))])), "~v");
const PLACE = tagged(oneOf([words("three"), words("one")]), "~p");
const START = new AutomatonBuilder().compile(
  chain(
    oneOf([words("crankpin"), words("crank pin"), words("piston"), words("run out"), words("shim four"), words("shim for")]),
    maybe(PLACE),
    maybe(FIGURE),
  ),
);

const waysOf = (sentence: string) => [...otherWays(START, sentence.split(" "))].map((way) => way.join(" ")).sort();

describe("other ways to say a sentence", () => {
  it.each([
    ["in one word and in two", "crankpin three", ["crank pin three~p", "crankpin three~p"]],
    ["in two words and in one", "crank pin one", ["crank pin one~p", "crankpin one~p"]],
    [
      "two digits and the ten they make",
      "piston three eight seven",
      ["piston three~v eighty~v seven~v", "piston three~v eight~v seven~v"],
    ],
    ["a ten and its two digits", "piston one eighty seven", ["piston one~v eighty~v seven~v", "piston one~v eight~v seven~v"]],
    ["the same words in other roles", "piston one three eight oh", ["piston one~p three~v eight~v oh~v"]],
    ["a number and the word that sounds just like it", "shim four one", ["shim for one~p", "shim four one~p"]],
    ["not the number for the word", "shim for one", ["shim for one~p"]],
    ["no other where no digit follows", "piston three eighty", ["piston three~v eighty~v"]],
    ["none that the grammar does not have", "runout", ["run out"]],
    ["nothing for what is not in the grammar", "piston nine", []],
  ] as const)("are %s", (_what, sentence, ways) => {
    expect(waysOf(sentence)).toEqual([...ways]);
  });

  it.each([
    ["crankpin four~p one~v eight~v", "crankpin for one~p eight~v", true],
    ["crankpin four~p one~v eight~v", "crankpin four~p one~v eighty~v", false],
    ["crankpin four~p one~v", "crankpin four~p", false],
  ])("%s and %s sound just the same: %s", (one, other, same) => {
    expect(soundSame(one.split(" "), other.split(" "))).toBe(same);
    expect(soundSame(other.split(" "), one.split(" "))).toBe(same);
  });

  it("hold the sentence itself, and are all in the grammar", () => {
    const { start } = buildGrammar(DEMO_SPEC, { step: "pistons" }, "near");
    fc.assert(
      fc.property(fc.infiniteStream(fc.double({ min: 0, max: 0.999, noNaN: true })), (stream) => {
        const sentence = randomSentence(start, () => stream.next().value as number);
        if (sentence.length > 12) return;
        const ways = [
          ...otherWays(
            start,
            sentence.map((word) => plainWord(word)),
          ),
        ];
        expect(ways.map((way) => way.join(" "))).toContain(sentence.join(" "));
        for (const way of ways) {
          let state = start;
          for (const word of way) {
            const next = state.arcs.find((arc) => arc.word === word);
            expect(next).toBeDefined();
            state = next?.to ?? state;
          }
          expect(state.final).toBeGreaterThan(0);
        }
      }),
      { numRuns: 60 },
    );
  });
});
