// What a heard sentence may have been instead: sentences of the same grammar, a slip or two away, and nothing else.
import fc from "fast-check";
import { describe, expect, it } from "vitest";
import { seeded } from "../../../extractors/hearing/audio/noise.ts";
import { follow, randomSentence } from "../../../extractors/hearing/grammar/fsg.ts";
import { buildGrammar } from "../../../extractors/hearing/grammar/index.ts";
import { rivalsFsg } from "../../../extractors/hearing/grammar/rivals.ts";
import { isPhoneWord } from "../../../extractors/hearing/text.ts";
import { plainWord } from "../../../extractors/hearing/words/plain-word.ts";
import type { Context } from "../../../shared/events/reading.ts";
import { DEMO_SPEC } from "../../../shared/spec/demo-engine.ts";
import { readFsg } from "./fsg-text.ts";

const NUT: Context = { quantity: "fastener_torque", place: { fastener: "rod", rod: 2, nut: "a" } };
const BORE: Context = { quantity: "bore_diameter", place: { cylinder: 3, depth: "top", axis: "thrust" } };
const startOf = (context: Context) => buildGrammar(DEMO_SPEC, context, "near").start;

/** A finite-state grammar read back from its text. */
function machine(fsg: string) {
  const stateOf = (kind: string) => Number(fsg.match(new RegExp(`^${kind} (\\d+)$`, "m"))?.[1] ?? -1);
  return { arcs: readFsg(fsg), start: stateOf("START_STATE"), final: stateOf("FINAL_STATE") };
}

/** Whether the grammar has a sentence of these words. */
function has(fsg: string, sentence: readonly string[]): boolean {
  const { arcs, start, final } = machine(fsg);
  const closed = (states: Set<number>) => {
    for (const state of states) for (const { to, words } of arcs.get(state) ?? []) if (words.length === 0) states.add(to);
    return states;
  };
  let states = closed(new Set([start]));
  for (const word of sentence) {
    const next = new Set<number>();
    for (const state of states) for (const arc of arcs.get(state) ?? []) if (arc.words[0] === word) next.add(arc.to);
    states = closed(next);
  }
  return states.has(final);
}

/** A random sentence of the grammar. */
function walk(fsg: string, random: () => number): string[] {
  const { arcs, start, final } = machine(fsg);
  const sentence: string[] = [];
  for (let state = start; state !== final; ) {
    const choices = arcs.get(state) ?? [];
    const arc = choices[Math.floor(random() * choices.length)];
    if (arc === undefined) throw new Error("Expected a way to the end");
    sentence.push(...arc.words);
    state = arc.to;
  }
  return sentence;
}

/** Least number of words to change, put in or leave out. */
function slips(one: readonly string[], other: readonly string[]): number {
  let row = Array.from({ length: other.length + 1 }, (_, index) => index);
  one.forEach((word, i) => {
    const next = [i + 1];
    other.forEach((to, j) => {
      next.push(Math.min((row[j + 1] ?? 0) + 1, (next[j] ?? 0) + 1, (row[j] ?? 0) + (word === to ? 0 : 1)));
    });
    row = next;
  });
  return row[other.length] ?? 0;
}

const HOLLOW = new Set(["a", "and", "at", "is", "number", "on", "the", "thou", "thousandth", "thousandths", "was"]);
const solid = (sentence: readonly string[]) => sentence.filter((word) => !HOLLOW.has(plainWord(word))).join(" ");

const said = (text: string) => text.split(" ").map((word) => `${word}~v`);
const rivals = (context: Context, text: string) => rivalsFsg(startOf(context), said(text)) ?? "";

describe("the rivals of a sentence", () => {
  it.each([
    ["the sentence itself", BORE, "three eight eight four one", "three eight eight four one", true],
    ["nine for five", BORE, "three eight seven five one", "three eight seven nine one", true],
    ["two digits at once", BORE, "three eight seven five one", "three eight one nine one", true],
    ["three digits at once", BORE, "three eight seven five one", "three eight one nine four", false],
    ["fifty for fifteen", NUT, "fifteen foot pounds", "fifty foot pounds", true],
    ["thirty-nine for thirteen", NUT, "thirteen foot pounds", "thirty nine foot pounds", true],
    ["a unit left away", NUT, "thirteen pounds", "thirteen", true],
    ["pounds for degrees", NUT, "thirteen pounds", "thirteen degrees", false],
  ] as const)("%s", (_what, context, heard, other, among) => {
    expect(has(rivals(context, heard), said(other))).toBe(among);
  });

  it.each([
    [BORE, "three eight seven five one"],
    [BORE, "three three three nine nine"],
    [NUT, "thirty foot pounds"],
  ] as const)("are without it where it is not wanted", (context, heard) => {
    const others = rivalsFsg(startOf(context), said(heard), [said(heard)]);
    expect(others).toBeDefined();
    expect(has(others ?? "", said(heard))).toBe(false);
  });

  it.each([
    ["a number", "thirteen", "fifteen", true],
    ["a number and a word that says nothing", "thirteen", "fifteen thou", true],
    ["a word that says nothing, put in", "thirteen and a half", "thirteen and a half thou", false],
    ["the same, left out", "thirteen thou", "thirteen", false],
    ["a teen for a ten", "thirteen thou", "thirty thou", true],
  ] as const)("are without what differs from it in words that say nothing: %s", (_what, heard, other, among) => {
    const gap: Context = { quantity: "ring_end_gap", place: { cylinder: 2, ring: "top" } };
    const others = rivalsFsg(startOf(gap), said(heard), [said(heard)]) ?? "";
    expect(has(others, said(other))).toBe(among);
  });

  it("have it dearer by what was asked, once the grammar's weights count fourfold, and nothing else", () => {
    const heard = said("three eight seven five one");
    const ends = (fsg = "") => {
      const last = fsg.match(/FINAL_STATE (\d+)/)?.[1];
      const lines = [...fsg.matchAll(/^TRANSITION \d+ (\d+) (\S+)$/gm)];
      return lines.filter(([, to]) => to === last).map(([, , weight]) => Number(weight));
    };
    const plain = rivalsFsg(startOf(BORE), heard) ?? "";
    const dearer = rivalsFsg(startOf(BORE), heard, [heard], 40) ?? "";
    expect(has(dearer, heard)).toBe(true);
    const dear = ends(dearer).filter((weight) => !ends(plain).includes(weight));
    expect(dear.length).toBeGreaterThan(0);
    for (const weight of dear)
      expect(
        ends(plain).some((full) => Math.abs(4 * Math.log(full / weight) - 40) < 0.01),
        `${weight}`,
      ).toBe(true);
  });

  it("is nothing for words the grammar does not have there", () => {
    expect(rivalsFsg(startOf(NUT), said("piston crankpin bore thou"))).toBeUndefined();
  });

  it("are sentences of the grammar, at most two words away", () => {
    const starts = [startOf(NUT), startOf(BORE), startOf({ step: "rings" })];
    fc.assert(
      fc.property(fc.nat(), fc.nat({ max: starts.length - 1 }), (seed, which) => {
        const start = starts[which];
        const random = seeded(seed);
        if (start === undefined) return;
        const heard = randomSentence(start, random);
        if (heard.some(isPhoneWord)) return;
        const fsg = rivalsFsg(start, heard);
        if (fsg === undefined) throw new Error("Expected the sentence itself among its rivals");
        expect(has(fsg, heard)).toBe(true);
        // Each state takes its time: no two have the same rest.
        const rests = [...readFsg(fsg).values()].map((ways) => JSON.stringify(ways));
        expect(new Set(rests).size).toBe(rests.length);
        const others = rivalsFsg(start, heard, [heard]);
        if (others !== undefined) expect(has(others, heard), heard.join(" ")).toBe(false);
        const rival = walk(fsg, random);
        expect(
          slips(heard.map(plainWord), rival.map(plainWord)),
          `${heard.map(plainWord)} and ${rival.map(plainWord)}`,
        ).toBeLessThanOrEqual(2);
        expect(follow(start, rival)?.final).toBeGreaterThan(0);
        // Nothing else is missing: what goes is what comes to one of the unwanted when the hollow words are left out.
        const pair = rivalsFsg(start, heard, [heard, rival]);
        const third = walk(fsg, random);
        const gone = [heard, rival].some((unwanted) => solid(unwanted) === solid(third));
        expect(pair !== undefined && has(pair, third), third.map(plainWord).join(" ")).toBe(!gone);
      }),
      { numRuns: 150, seed: 11 },
    );
  });
});
