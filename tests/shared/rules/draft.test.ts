// A draft of a build is what the build would be, and the build is not changed by it: over random logs and random goings-on.
import fc from "fast-check";
import { describe, expect, it } from "vitest";
import { apply, type Build, draftOf, foldBuild, openBuild } from "../../../shared/build/index.ts";
import type { BenchEvent } from "../../../shared/events/events.ts";
import { AXES, DEPTHS } from "../../../shared/places/places.ts";
import { Evaluator } from "../../../shared/rules/index.ts";
import { BenchLog } from "./bench-log.ts";
import { MOVES, type Move } from "./random-moves.ts";

/** All that a build holds, in its order, as plain data. */
function contents(value: unknown): unknown {
  if (value instanceof Map) return [...value].map(([key, item]) => [key, contents(item)]);
  if (value instanceof Set) return value.size;
  if (typeof value !== "object" || value === null) return value;
  if (Symbol.iterator in value) return [...(value as Iterable<unknown>)].map(contents);
  return Object.fromEntries(Object.entries(value).map(([key, item]) => [key, contents(item)]));
}

/** Events of the moves, and how many of them the first moves made. */
function logOf(first: readonly Move[], then: readonly Move[]): { events: readonly BenchEvent[]; early: number } {
  const log = new BenchLog();
  const taken: string[] = [];
  for (const move of first) move(log, taken);
  const early = log.events.length;
  for (const move of then) move(log, taken);
  return { events: log.events, early };
}

const follow = (events: readonly BenchEvent[]): Evaluator => {
  const [first, ...rest] = events as [BenchEvent, ...BenchEvent[]];
  const evaluator = new Evaluator(openBuild(first));
  for (const event of rest) evaluator.apply(event);
  return evaluator;
};

const both = fc.tuple(fc.array(MOVES, { minLength: 5, maxLength: 50 }), fc.array(MOVES, { minLength: 1, maxLength: 8 }));

describe("a draft", () => {
  it("holds and finds what the build would, and leaves the build and its findings as they were", () => {
    fc.assert(
      fc.property(both, ([moves, more]) => {
        const { events, early } = logOf(moves, more);
        const evaluator = follow(events.slice(0, early));
        const [built, found] = [contents(evaluator.build), evaluator.findings()];
        const draft = evaluator.draft();
        for (const event of events.slice(early)) draft.apply(event);
        expect(draft.findings()).toEqual(follow(events).findings());
        expect(contents(draft.build)).toEqual(contents(foldBuild(events)));
        expect(contents(evaluator.build)).toEqual(built);
        expect(evaluator.findings()).toEqual(found);
        // Nor has anything been left behind that would show later.
        for (const event of events.slice(early)) evaluator.apply(event);
        expect(evaluator.findings()).toEqual(follow(events).findings());
        expect(contents(evaluator.build)).toEqual(contents(foldBuild(events)));
      }),
      { numRuns: 100 },
    );
  });

  it("can be drafted from itself", () => {
    fc.assert(
      fc.property(both, ([moves, more]) => {
        const { events, early } = logOf(moves, more);
        const base: Build = foldBuild(events.slice(0, early));
        const middle = draftOf(base);
        const late = events.slice(early);
        const half = Math.floor(late.length / 2);
        for (const event of late.slice(0, half)) apply(middle, event);
        const before = contents(middle);
        const top = draftOf(middle);
        for (const event of late.slice(half)) apply(top, event);
        expect(contents(top)).toEqual(contents(foldBuild(events)));
        expect(contents(middle)).toEqual(before);
      }),
      { numRuns: 50 },
    );
  });

  it("makes the rules look at as many subjects as the event itself would, however long the log", () => {
    const log = new BenchLog();
    for (let n = 0; n < 1500; n++) {
      const place = { cylinder: (n % 4) + 1, depth: DEPTHS[n % 3] ?? "top", axis: AXES[n % 2] ?? "thrust" };
      log.read("bore_diameter", place, 3.875 + (n % 100) / 10000);
    }
    const evaluator = new Evaluator(log.fold());
    log.read("bore_diameter", { cylinder: 2, depth: "top", axis: "thrust" }, 3.8801);
    const event = log.events.at(-1) as BenchEvent;
    const draft = evaluator.draft();
    draft.apply(event);
    const before = evaluator.checked;
    evaluator.apply(event);
    expect(draft.checked).toBe(evaluator.checked - before);
    expect(draft.checked).toBeGreaterThan(0);
  });
});
