// How clearly a sentence leads the next best one: the least of several scales, sentences that come to the same left out.
import { describe, expect, it } from "vitest";
import { type HearRivals, leadOf } from "../../../extractors/hearing/doubt/lead.ts";
import type { Pass } from "../../../extractors/hearing/doubt/vote.ts";
import { finish } from "../../../extractors/hearing/steps.ts";

const pass = (text: string, cost: number | undefined, meaning = text): Pass => ({
  warp: 1,
  decoded: { words: text.split(" ").map((word, at) => ({ word, start: at, end: at + 1, cost: 100 })), cost },
  full: false,
  text,
  meaning,
  plain: true,
  command: false,
});

const WANTED = 15;
const WINNER = pass("twelve", 500);

/** The cheapest of these that is not among the unwanted. */
const hearing =
  (costs: Readonly<Record<string, readonly [number, string]>>): HearRivals =>
  (_warp, _turn, without) => {
    const unwanted = without.map((words) => words.join(" "));
    const [best] = Object.entries(costs)
      .filter(([text]) => !unwanted.includes(text))
      .sort(([, [one]], [, [other]]) => one - other);
    return best === undefined ? undefined : pass(best[0], ...best[1]);
  };

describe("the lead of a sentence", () => {
  it.each([
    ["over what comes to something else", { twelve: [500, "twelve"], ten: [540, "ten"] }, 40],
    [
      "is not over the same in other words",
      { twelve: [500, "twelve"], "one two": [501, "twelve"], "twelve oh": [503, "twelve"], ten: [530, "ten"] },
      30,
    ],
    ["may be little", { twelve: [500, "twelve"], ten: [503, "ten"] }, 3],
    ["is boundless where nothing else can be meant", { twelve: [500, "twelve"] }, Number.POSITIVE_INFINITY],
    ["is none where it is not heard again itself", { ten: [450, "ten"], twelve: [500, "twelve"] }, 0],
  ] as const)("%s", (_what, costs, lead) => {
    expect(finish(leadOf(WINNER, WANTED, hearing(costs)))).toBe(lead);
  });

  it("is the least of three scales", () => {
    const near: readonly number[] = [60, 35, 50];
    const warps: number[] = [];
    const hear: HearRivals = (warp, turn, without) => {
      warps.push(warp);
      return without.length === 0 ? pass("twelve", 500) : pass("ten", 500 + (near[turn] ?? 0));
    };
    expect(finish(leadOf(WINNER, WANTED, hear))).toBe(35);
    expect(new Set(warps)).toEqual(new Set([1, 0.97, 1.03]));
  });

  it("is not looked for further once it is too small, nor where everything comes to the same", () => {
    let decodes = 0;
    const close: HearRivals = (_warp, _turn, without) => {
      decodes += 1;
      return without.length === 0 ? pass("twelve", 500) : pass("ten", 500 + WANTED - 1);
    };
    expect(finish(leadOf(WINNER, WANTED, close))).toBe(WANTED - 1);
    expect(decodes).toBe(2);
    const same: HearRivals = (_warp, _turn, without) => pass(`twelve ${without.length}`, 500 + without.length, "twelve");
    expect(finish(leadOf(WINNER, WANTED, same))).toBe(0);
  });
});
