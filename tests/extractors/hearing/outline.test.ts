// What a sentence is about, heard in outline: which sentences the grammar has, and that its grammar stays small. Names are the registry's.
import { describe, expect, it } from "vitest";
import { buildGrammar, namedIn } from "../../../extractors/hearing/grammar/index.ts";
import { outlineFsg } from "../../../extractors/hearing/grammar/outline.ts";
import { SAID_OWN_WAY } from "../../../extractors/hearing/grammar/own-ways.ts";
import { isSayable } from "../../../extractors/hearing/words/dictionary.ts";
import { ALL_QUANTITIES } from "../../../shared/quantities/registry.ts";
import { DEMO_SPEC } from "../../../shared/spec/demo-engine.ts";
import { readFsg } from "./fsg-text.ts";

const EVERYTHING = buildGrammar(DEMO_SPEC, {}, "all");
const OUTLINE = outlineFsg(EVERYTHING.start, DEMO_SPEC);
const count = (fsg: string, what: string) => Number(new RegExp(`^${what} (\\d+)$`, "m").exec(fsg)?.[1]);
const TRANSITIONS = readFsg(OUTLINE);

/** Whether the outline has a sentence, words with roles. */
function has(sentence: string): boolean {
  const said = sentence.split(" ");
  const seen = new Set<string>();
  const pending = [{ at: count(OUTLINE, "START_STATE"), done: 0 }];
  for (let place = pending.pop(); place !== undefined; place = pending.pop()) {
    const { at, done } = place;
    if (seen.has(`${at} ${done}`)) continue;
    seen.add(`${at} ${done}`);
    if (done === said.length && at === count(OUTLINE, "FINAL_STATE")) return true;
    for (const { to, words } of TRANSITIONS.get(at) ?? [])
      if (words.every((word, index) => word === said[done + index])) pending.push({ at: to, done: done + words.length });
  }
  return false;
}

describe("a sentence in outline", () => {
  it("may be about anything by any of its names, and tells what", () => {
    const named = ALL_QUANTITIES.filter(({ id }) => !SAID_OWN_WAY.has(id));
    const names = named.flatMap(({ id, spoken }) => spoken.filter(isSayable).map((name) => ({ id, name })));
    expect(names.length).toBeGreaterThan(100);
    for (const { id, name } of names) {
      expect(has(`${name} three~v eight~v`), name).toBe(true);
      expect(namedIn(`${name} three~v eight~v`.split(" ")), name).toContain(id);
    }
  });

  it.each([
    ["the place after the name", "ring gap number~p two~p top~p twelve~v thou~v", true],
    ["words of a place and of a figure that make none", "ring gap top~p top~p a~v a~v point~v", true],
    ["the name alone", "ring gap", true],
    ["the figure first, the place last", "sixty~v two~v pounds~v compression four~p", true],
    ["the place first", "rod~p three~p side nine~v thou~v", true],
    ["a length where a read-out belongs", "throw four~p four~v thou~v", false],
    ["a figure before what is never said so", "three~v eight~v bore", false],
    ["a short name alone", "throw", false],
    ["the ring before a name that holds the word", "oil~p ring gap one~p fifteen~v thou~v", true],
    ["a nut, which is said in a way of its own", "rod~p two~p nut~p a~p thirty~v eight~v", true],
    ["no name", "main~p two~p nineteen~v tenths~v", true],
    ["two names", "ring gap compression", false],
    ["a command", "say again", false],
    ["half a name", "ring two~p twelve~v thou~v", false],
  ])("with %s: %s, %s", (_what, sentence, known) => {
    expect(has(sentence)).toBe(known);
  });

  it("takes an eighth of the states of everything: those are what a look costs", () => {
    const { fsg } = buildGrammar(DEMO_SPEC, {}, "all");
    expect(count(OUTLINE, "NUM_STATES")).toBeLessThan(count(fsg, "NUM_STATES") / 8);
  });
});
