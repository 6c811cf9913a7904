// Where the ear's doubt meets the parser: what was heard surely counts, what was not waits or asks.
import { describe, expect, it } from "vitest";
import { type Heard, understand } from "../../../extractors/hearing/index.ts";
import { difference, isWhole } from "../../../extractors/hearing/understand.ts";
import type { Context } from "../../../shared/events/reading.ts";
import { DEMO_SPEC } from "../../../shared/spec/demo-engine.ts";

const heard = (text: string, over: Partial<Heard> = {}): Heard => ({
  text,
  seconds: 2,
  verdict: "ok",
  chance: 1,
  others: [],
  evidence: { lead: 9, gap: 0.1, haze: 0.05, phones: 20 },
  ...over,
});
const BORE: Context = { quantity: "bore_diameter", place: { cylinder: 3, depth: "top", axis: "thrust" } };

describe("understand", () => {
  it("accepts what was heard without doubt", () => {
    const { readings, questions } = understand(heard("ring gap two top, twelve thou"), {}, DEMO_SPEC);
    expect(readings).toMatchObject([{ quantity: "ring_end_gap", value: 0.012, do: "accept" }]);
    expect(questions).toEqual([]);
  });

  it("lets a doubtful reading wait and asks which of the two words it was", () => {
    const others = ["three eight eight nine one", "three eight eight five two"];
    const { readings, questions } = understand(
      heard("three eight eight five one", { verdict: "doubtful", others }),
      BORE,
      DEMO_SPEC,
    );
    expect(readings).toMatchObject([{ value: 3.8851, do: "confirm", because: "heard_unsure" }]);
    expect(questions).toMatchObject([{ code: "heard_unsure", say: "five or nine?", about: { words: ["five", "nine"] } }]);
  });

  it.each([
    ["one word", "ring gap two top, fifteen thou", "ring gap two top, sixteen thou", ["fifteen", "sixteen"]],
    ["two words for one", "forty one", "forty", undefined],
    ["words at the beginning", "bush fit four tenths", "boss fit four tenths", ["bush", "boss"]],
    ["all words", "main two clearance, two thou", "rod four side, eleven", undefined],
    ["nothing but a pause", "main two, two thou", "main two two thou", undefined],
  ])("names the difference of %s", (_, one, other, difference_) => {
    expect(difference(one, other)).toEqual(difference_);
  });

  it("never acts on a doubtful command that changes what was logged", () => {
    const { commands, questions } = understand(heard("scratch that", { verdict: "doubtful" }), {}, DEMO_SPEC);
    expect(commands).toEqual([]);
    expect(questions).toHaveLength(1);
  });

  it("says nothing for nothing", () => {
    expect(understand(heard("", { verdict: "nothing" }), {}, DEMO_SPEC)).toMatchObject({
      readings: [],
      questions: [],
      commands: [],
    });
  });

  it("does not accept a read-out that has lost digits", () => {
    const { readings } = understand(heard("three eight eight"), BORE, DEMO_SPEC);
    expect(readings.filter((reading) => reading.do === "accept")).toEqual([]);
  });

  it.each([
    ["rod three side", "rod_side_clearance", { rod: 3 }],
    ["main journal two", undefined, { main: 2 }],
    ["bore two top thrust", "bore_diameter", { cylinder: 2, depth: "top", axis: "thrust" }],
  ] as const)("takes up what broke off before its figure, and listens on: %s", (text, quantity, place) => {
    const one = heard(text);
    const parsed = understand(one, { quantity: "bearing_clearance", place: { rod: 1 } }, DEMO_SPEC);
    expect(parsed.readings).toEqual([]);
    expect(parsed.commands).toMatchObject([{ command: "goto", place }]);
    expect(parsed.questions.map(({ about }) => about?.quantities)).toEqual(quantity === undefined ? [] : [[quantity]]);
    expect(isWhole(one, parsed)).toBe(false);
  });

  it.each([
    ["ring gap two top, twelve thou", {}, true],
    ["ring gap two top, twelve", {}, false],
    ["three eight eight four one", BORE, true],
    ["three eight eight four", BORE, false],
    ["next cylinder", {}, true],
    ["cylinder three", {}, false],
    ["scratch that", {}, false],
  ])("whether %j is whole", (text, context, whole) => {
    const one = heard(text);
    expect(isWhole(one, understand(one, context as Context, DEMO_SPEC))).toBe(whole);
  });
});
