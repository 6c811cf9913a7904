// How clearly a sentence leads the next best one: made so much dearer it is still heard, at its own scale and at its checks.
import { describe, expect, it } from "vitest";
import { type HearRivals, leads } from "../../../extractors/hearing/doubt/lead.ts";
import type { Pass } from "../../../extractors/hearing/doubt/vote.ts";
import { finish } from "../../../extractors/hearing/steps.ts";
import { passOf } from "./passes.ts";

const pass = (text: string, cost: number | undefined, meaning = text): Pass => {
  const { decoded, ...rest } = passOf(text, { meaning, full: false });
  return { ...rest, decoded: { ...decoded, cost } };
};

const WANTED = 15;
const WINNER = pass("twelve", 500);
const check = (warp: number, turn: number, cost = 500, text = "twelve"): Pass => ({
  ...pass(text, cost),
  warp,
  turn,
});
/** The winner's sentence, and no other that is known to come to the same. */
const WAYS = [["twelve"]];
const CHECKS = [check(0.96, 1), check(1.04, 2)];

/** The cheapest of the winner and these, what is unwanted so much dearer. */
const hearing =
  (others: Readonly<Record<string, readonly [number, string]>>): HearRivals =>
  (at, unwanted, dearer = Number.POSITIVE_INFINITY) => {
    const sentences = { twelve: [500, "twelve"] as const, ...others };
    const [best] = Object.entries(sentences)
      .map(([text, [cost, meaning]]) => {
        const isUnwanted = unwanted.some((words) => words.join(" ") === text);
        return pass(text, isUnwanted ? cost + dearer : cost, meaning);
      })
      .sort((one, other) => (one.decoded.cost ?? 0) - (other.decoded.cost ?? 0));
    return best && { ...best, ...at };
  };

const isLeading = (others: Readonly<Record<string, readonly [number, string]>>, wanted: number) =>
  finish(leads(WINNER, CHECKS, wanted, hearing(others), WAYS)) !== undefined;

describe("the lead of a sentence", () => {
  it.each([
    ["over what comes to something else", { ten: [540, "ten"] }, 40],
    [
      "over that alone, not over the same in other words",
      { "one two": [501, "twelve"], "twelve oh": [503, "twelve"], ten: [530, "ten"] },
      30,
    ],
    ["may be little", { ten: [503, "ten"] }, 3],
  ] as const)("is %s", (_what, others, lead) => {
    expect(isLeading(others, lead - 1)).toBe(true);
    expect(isLeading(others, lead + 1)).toBe(false);
  });

  it("is looked for beyond what is known to come to the same, from the first", () => {
    const asked: string[][] = [];
    const hear: HearRivals = (at, unwanted, dearer) => {
      asked.push(unwanted.map((words) => words.join(" ")));
      return hearing({ "one two": [501, "twelve"], ten: [530, "ten"] })(at, unwanted, dearer);
    };
    expect(finish(leads(WINNER, [], 25, hear, [...WAYS, ["one", "two"]]))).toBeDefined();
    expect(asked).toEqual([["twelve", "one two"]]);
  });

  it("is given up after so many sentences more that come to the same", () => {
    let decodes = 0;
    const same: HearRivals = (_at, unwanted) => {
      decodes += 1;
      return pass(`twelve ${unwanted.length}`, 500, "twelve");
    };
    expect(finish(leads(WINNER, CHECKS, WANTED, same, [...WAYS, ["one", "two"]], 1))).toBeUndefined();
    expect(decodes).toBe(2);
  });

  it("is as great as one wants where nothing else can be meant", () => {
    expect(isLeading({}, 1e6)).toBe(true);
  });

  it("is asked for at the sentence's own scale and at two checks that heard the same, at their own scales and noises", () => {
    const heardAt: unknown[] = [];
    const hear: HearRivals = ({ warp, turn }, unwanted, dearer) => {
      heardAt.push([warp, turn, unwanted.map((words) => words.join(" ")), dearer]);
      return WINNER;
    };
    const lost = { ...check(1.02, 3), decoded: { words: [], cost: undefined } };
    const look = { ...check(1, 0), full: true };
    const checks = [look, check(0.96, 1), check(0.92, 2, 480, "ten"), lost, check(1.08, 4), check(0.9, 5)];
    expect(finish(leads(WINNER, checks, WANTED, hear, WAYS))).toBe(WINNER);
    expect(heardAt).toEqual([
      [1, 0, ["twelve"], WANTED],
      [0.96, 1, ["twelve"], WANTED],
      [1.08, 4, ["twelve"], WANTED],
    ]);
  });

  it("is not asked for again where three checks were as far ahead, and is where they were less far", () => {
    let decodes = 0;
    const hear: HearRivals = () => {
      decodes += 1;
      return WINNER;
    };
    const ahead = (by: number) => [...CHECKS, check(0.92, 3)].map((pass) => ({ ...pass, ahead: by }));
    expect(finish(leads(WINNER, ahead(WANTED), WANTED, hear, WAYS))).toBeDefined();
    expect(decodes).toBe(0);
    expect(finish(leads(WINNER, ahead(WANTED - 1), WANTED, hear, WAYS))).toBeDefined();
    expect(decodes).toBe(3);
    const other = ahead(WANTED).map((pass) => ({ ...pass, meaning: "ten" }));
    expect(finish(leads(WINNER, other, WANTED, () => pass("ten", 450), WAYS))).toBeUndefined();
  });

  it("is not asked for where a check has shown that it is less, and is where the check showed so of more, or of another sentence", () => {
    let decodes = 0;
    const hear: HearRivals = () => {
      decodes += 1;
      return WINNER;
    };
    const behind = (by: number, meaning = "twelve") => [check(0.96, 1), { ...check(1.04, 2), meaning, behind: by }];
    expect(finish(leads(WINNER, behind(WANTED), WANTED, hear, WAYS))).toBeUndefined();
    expect(decodes).toBe(0);
    expect(finish(leads(WINNER, behind(WANTED + 1), WANTED, hear, WAYS))).toBe(WINNER);
    expect(finish(leads(WINNER, behind(WANTED, "ten"), WANTED, hear, WAYS))).toBe(WINNER);
    expect(decodes).toBe(5);
  });

  it("is not looked for further once it is too small", () => {
    let decodes = 0;
    const close: HearRivals = () => {
      decodes += 1;
      return pass("ten", 500 + WANTED - 1);
    };
    expect(finish(leads(WINNER, CHECKS, WANTED, close, WAYS))).toBeUndefined();
    expect(decodes).toBe(1);
  });

  it("is none where the sentence is not heard again, nor where everything comes to the same", () => {
    expect(finish(leads(WINNER, CHECKS, WANTED, () => undefined, WAYS))).toBeUndefined();
    expect(finish(leads(WINNER, CHECKS, WANTED, () => pass("twelve", undefined), WAYS))).toBeUndefined();
    const same: HearRivals = (_at, unwanted) => pass(`twelve ${unwanted.length}`, 500, "twelve");
    expect(finish(leads(WINNER, CHECKS, WANTED, same, WAYS))).toBeUndefined();
  });
});
