// Nothing unread: a word of place, quantity, number, negation or condition is part of a reading, or the reading waits and the word is told.
import { describe, expect, test } from "vitest";
import { parse } from "../../../extractors/speech/index.ts";
import { toTokens } from "../../../extractors/speech/tokens.ts";
import { toWords } from "../../../extractors/speech/words.ts";
import type { Context } from "../../../shared/events/reading.ts";
import { placeLabel } from "../../../shared/places/places.ts";
import { DEMO_SPEC } from "../../../shared/spec/demo-engine.ts";
import { TABLES } from "./cases/all.ts";
import { CONTEXTS } from "./contexts.ts";
import { read } from "./read.ts";

const CASES = Object.values(TABLES).flatMap(({ accepted }) =>
  accepted.flatMap(({ say, context = {} }): { text: string; context: Context }[] => say.map((text) => ({ text, context }))),
);

describe("words that no reading made use of", () => {
  test.each([
    ["rear main end float six thou", {}, ["rear", "main"]],
    ["ring gap two top twelve thou hot", {}, ["hot"]],
    ["inner bore two top thrust three eight seven five oh", {}, ["inner"]],
    ["end float six thou exhaust", {}, ["exhaust"]],
    ["cam end float four thou piston", {}, ["piston"]],
    ["twelve thou compression", CONTEXTS.ringGap, ["compression"]],
  ] as const)("%s", (text, context, words) => {
    const { parsed, told } = read(text, context);
    expect(
      parsed.readings.filter((reading) => reading.do === "accept"),
      told,
    ).toEqual([]);
    for (const word of words)
      expect([...parsed.unread, ...parsed.questions.map(({ code }) => code)].length, word).toBeGreaterThan(0);
  });

  test("a negation leaves nothing accepted", () => {
    expect(read("ring gap two top not twelve thou").parsed.readings.filter((reading) => reading.do === "accept")).toEqual([]);
  });
});

test("across is the thrust axis, whatever axis was open", () => {
  const { parsed, told } = read("and across, three eight seven four eight", CONTEXTS.bore);
  expect(
    parsed.readings.map(({ place }) => placeLabel(place)),
    told,
  ).toEqual(["cylinder 2, bottom, thrust"]);
});

describe("a group of nuts", () => {
  test.each([
    ["rod two nuts forty three foot pounds", ["rod 2, nut A", "rod 2, nut B"]],
    ["rod nuts forty three", [1, 2, 3, 4].flatMap((rod) => [`rod ${rod}, nut A`, `rod ${rod}, nut B`])],
  ])("%s: all of them, and one yes", (text, places) => {
    const { parsed, told } = read(text);
    expect(
      parsed.readings.map(({ place }) => placeLabel(place)),
      told,
    ).toEqual(places);
    expect(new Set(parsed.readings.map((reading) => `${reading.do} ${reading.because}`))).toEqual(new Set(["confirm list"]));
  });
});

test("takes no sentence in which one word says something that was not used", () => {
  const SENTENCE = "main two clearance two thou";
  const { parsed } = read(SENTENCE);
  expect(parsed.readings[0]?.do).toBe("accept");
  for (const stray of ["exhaust", "lash", "hot", "final gap", "valve", "intake", "ring", "bottom"]) {
    const { parsed: odd, told } = read(`${stray} ${SENTENCE}`);
    expect(
      odd.readings.filter((reading) => reading.do === "accept"),
      told,
    ).toEqual([]);
  }
});

// Each word of the parser's cases in turn means nothing: what stood without a question no longer does.
test("accepts no sentence of the cases with one of its words robbed of its meaning", () => {
  const stands: string[] = [];
  let robbed = 0;
  for (const { text, context } of CASES) {
    const words = toWords(text);
    for (const token of toTokens(words)) {
      const { slots, noun, num, unit, condition, feat, kind } = token.sense;
      if (kind !== undefined || [slots, noun, num, unit, condition, feat].every((part) => part === undefined)) continue;
      const without: string = `${text.slice(0, token.start)}zorp${text.slice(token.end)}`;
      robbed += 1;
      if (parse(without, context, DEMO_SPEC).readings.some((reading) => reading.do === "accept")) stands.push(without);
    }
  }
  expect(stands).toEqual([]);
  expect(robbed).toBeGreaterThan(500);
});
