// Random logs: following them event by event always comes to what checking them whole does, and what one event makes the rules
// look at does not grow with the log.
import fc from "fast-check";
import { describe, expect, it } from "vitest";
import { foldBuild, openBuild } from "../../../shared/build/build.ts";
import type { BenchEvent } from "../../../shared/events/events.ts";
import { AXES, DEPTHS } from "../../../shared/places/places.ts";
import { Evaluator, evaluate } from "../../../shared/rules/index.ts";
import { BenchLog } from "./bench-log.ts";
import { MOVES } from "./random-moves.ts";

describe("random logs", () => {
  it("event by event comes to the same as all at once", () => {
    fc.assert(
      fc.property(fc.array(MOVES, { minLength: 5, maxLength: 60 }), (moves) => {
        const log = new BenchLog();
        const taken: string[] = [];
        for (const step of moves) step(log, taken);
        const [first, ...rest] = log.events as [BenchEvent, ...BenchEvent[]];
        const following = new Evaluator(openBuild(first));
        for (const event of rest) following.apply(event);
        expect(following.findings()).toEqual(evaluate(foldBuild(log.events)));
      }),
      { numRuns: 60 },
    );
  });

  it("what one event makes the rules look at is bound by the engine, not by the log", () => {
    const [first] = new BenchLog().events as [BenchEvent];
    const log = new BenchLog();
    const following = new Evaluator(openBuild(first));
    const most = { early: 0, late: 0 };
    for (let n = 0; n < 3000; n++) {
      const cylinder = (n % 4) + 1;
      log.read(
        "bore_diameter",
        { cylinder, depth: DEPTHS[n % 3] ?? "top", axis: AXES[n % 2] ?? "thrust" },
        3.875 + (n % 100) / 10000,
      );
      const before = following.checked;
      following.apply(log.events.at(-1) as BenchEvent);
      const cost = following.checked - before;
      if (n < 100) most.early = Math.max(most.early, cost);
      else most.late = Math.max(most.late, cost);
    }
    expect(most.late).toBeLessThanOrEqual(most.early);
  });
});
