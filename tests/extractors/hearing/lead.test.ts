// How clearly a sentence leads the next best one: the least of several scales, sentences that come to the same left out.
import { describe, expect, it } from "vitest";
import { type HearRivals, leadOf } from "../../../extractors/hearing/doubt/lead.ts";
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
const CHECKS = [check(0.96, 1), check(1.04, 2)];

/** The winner when nothing is unwanted, else the cheapest of these that is not. */
const hearing =
  (costs: Readonly<Record<string, readonly [number, string]>>): HearRivals =>
  (warp, turn, without) => {
    const unwanted = without.map((words) => words.join(" "));
    const [best] = Object.entries(costs)
      .filter(([text]) => !unwanted.includes(text))
      .sort(([, [one]], [, [other]]) => one - other);
    if (without.length === 0) return { ...WINNER, warp, turn };
    return best === undefined ? undefined : pass(best[0], ...best[1]);
  };

describe("the lead of a sentence", () => {
  it.each([
    ["over what comes to something else", { ten: [540, "ten"] }, 40],
    ["is not over the same in other words", { "one two": [501, "twelve"], "twelve oh": [503, "twelve"], ten: [530, "ten"] }, 30],
    ["may be little", { ten: [503, "ten"] }, 3],
    ["is boundless where nothing else can be meant", {}, Number.POSITIVE_INFINITY],
  ] as const)("%s", (_what, costs, lead) => {
    expect(finish(leadOf(WINNER, CHECKS, WANTED, hearing(costs)))).toBe(lead);
  });

  it("is the least of its own scale and of checks that heard the same, at their own scales and noises", () => {
    const near: readonly number[] = [545, 560, 0, 0, 535];
    const heardAt: unknown[] = [];
    const hear: HearRivals = (warp, turn, without) => {
      if (without.length === 0) return WINNER;
      heardAt.push([warp, turn]);
      return pass("ten", near[turn]);
    };
    const lost = { ...check(1.02, 3), decoded: { words: [], cost: undefined } };
    const look = { ...check(1, 0), full: true };
    const checks = [look, check(0.96, 1), check(0.92, 2, 480, "ten"), lost, check(1.08, 4), check(0.9, 5)];
    expect(finish(leadOf(WINNER, checks, WANTED, hear))).toBe(35);
    expect(heardAt).toEqual([
      [1, 0],
      [0.96, 1],
      [1.08, 4],
    ]);
  });

  it("is not looked for further once it is too small", () => {
    let decodes = 0;
    const close: HearRivals = (_warp, _turn, without) => {
      decodes += 1;
      return without.length === 0 ? WINNER : pass("ten", 500 + WANTED - 1);
    };
    expect(finish(leadOf(WINNER, CHECKS, WANTED, close))).toBe(WANTED - 1);
    expect(decodes).toBe(2);
  });

  it("is none where it is not heard again itself, nor where everything comes to the same", () => {
    expect(finish(leadOf(WINNER, CHECKS, WANTED, () => pass("ten", 450)))).toBe(0);
    expect(finish(leadOf(WINNER, CHECKS, WANTED, () => undefined))).toBe(0);
    const same: HearRivals = (_warp, _turn, without) => pass(`twelve ${without.length}`, 500 + without.length, "twelve");
    expect(finish(leadOf(WINNER, CHECKS, WANTED, same))).toBe(0);
  });
});
