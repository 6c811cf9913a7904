// Random logs: following them event by event always comes to what checking them whole does, and what one event makes the rules
// look at does not grow with the log.
import fc from "fast-check";
import { describe, expect, it } from "vitest";
import { foldBuild, openBuild } from "../../../shared/build/build.ts";
import type { BenchEvent } from "../../../shared/events/events.ts";
import type { Place } from "../../../shared/places/places.ts";
import { AXES, DEPTHS, SIDES, VALVES } from "../../../shared/places/places.ts";
import type { QuantityId } from "../../../shared/quantities/types.ts";
import { Evaluator, evaluate } from "../../../shared/rules/index.ts";
import { BenchLog } from "./bench-log.ts";

const number = fc.integer({ min: 1, max: 4 });
const size = (low: number, high: number) => fc.integer({ min: low, max: high }).map((n) => n / 10000);

type Said = readonly [QuantityId, Place, number];
const said: fc.Arbitrary<Said> = fc.oneof(
  fc.tuple(
    fc.constant<QuantityId>("bore_diameter"),
    fc.record({ cylinder: number, depth: fc.constantFrom(...DEPTHS), axis: fc.constantFrom(...AXES) }),
    size(38750, 38900),
  ),
  fc.tuple(fc.constant<QuantityId>("bore_diameter"), fc.record({ cylinder: number }), size(39040, 39060)),
  fc.tuple(fc.constant<QuantityId>("piston_skirt_diameter"), fc.record({ cylinder: number }), size(39000, 39020)),
  fc.tuple(fc.constant<QuantityId>("piston_clearance"), fc.record({ cylinder: number }), size(20, 70)),
  fc.tuple(
    fc.constant<QuantityId>("ring_end_gap"),
    fc.record({ cylinder: number, ring: fc.constantFrom("top" as const, "second" as const, "oil" as const) }),
    size(90, 220),
  ),
  fc.tuple(fc.constant<QuantityId>("bearing_clearance"), fc.record({ rod: number }), size(10, 50)),
  fc.tuple(fc.constant<QuantityId>("shim_thickness"), fc.record({ rod: number, side: fc.constantFrom(...SIDES) }), size(80, 120)),
  fc.tuple(fc.constant<QuantityId>("deck_protrusion"), fc.record({ cylinder: number }), size(0, 300)),
  fc.tuple(fc.constant<QuantityId>("chamber_volume"), fc.record({ cylinder: number }), fc.integer({ min: 220, max: 228 })),
  fc.tuple(
    fc.constant<QuantityId>("valve_lash"),
    fc.record({ cylinder: number, valve: fc.constantFrom(...VALVES) }),
    size(80, 140),
  ),
  fc.tuple(
    fc.constant<QuantityId>("fastener_torque"),
    fc.record({ fastener: fc.constant("rod" as const), rod: number, nut: fc.constantFrom(...SIDES) }),
    fc.integer({ min: 30, max: 46 }),
  ),
  fc.tuple(fc.constant<QuantityId>("part_temperature"), fc.constant({ part: "block" }), fc.integer({ min: 15, max: 32 })),
);

type Move = (log: BenchLog, taken: string[]) => void;
const pickOf = (taken: readonly string[], at: number): string | undefined => taken[at % Math.max(1, taken.length)];

const move: fc.Arbitrary<Move> = fc.oneof(
  {
    weight: 8,
    arbitrary: fc.tuple(said, fc.boolean(), fc.constantFrom("as_found", "final") as fc.Arbitrary<"as_found" | "final">).map(
      ([[quantity, place, value], sure, condition]): Move =>
        (log, taken) =>
          taken.push(log.read(quantity, place, value, { condition, do: sure ? "accept" : "confirm" })),
    ),
  },
  {
    weight: 2,
    arbitrary: fc
      .tuple(
        fc.nat(50),
        fc.constantFrom("reading.struck", "reading.confirmed", "reading.rejected") as fc.Arbitrary<
          "reading.struck" | "reading.confirmed" | "reading.rejected"
        >,
      )
      .map(
        ([at, type]): Move =>
          (log, taken) => {
            const target = pickOf(taken, at);
            if (target !== undefined) log.add(type, { target });
          },
      ),
  },
  {
    weight: 1,
    arbitrary: fc.tuple(fc.nat(50), number).map(
      ([at, cylinder]): Move =>
        (log, taken) => {
          const target = pickOf(taken, at);
          if (target !== undefined) log.add("reading.retagged", { target, place: { cylinder } });
        },
    ),
  },
  {
    weight: 1,
    arbitrary: fc
      .tuple(
        fc.constantFrom("piston", "bore", "rod_bearing", "rings") as fc.Arbitrary<"piston" | "bore" | "rod_bearing" | "rings">,
        number,
      )
      .map(
        ([part, n]): Move =>
          (log) =>
            log.add("part.changed", { part, place: part === "rod_bearing" ? { rod: n } : { cylinder: n }, what: "changed" }),
      ),
  },
  {
    weight: 1,
    arbitrary: fc.constantFrom("bores", "rings", "deck", "final_torque", "hand_over").map(
      (step): Move =>
        (log) =>
          log.add("step.opened", { step: step as "bores" }),
    ),
  },
  {
    weight: 1,
    arbitrary: fc.constantFrom("rings", "final_torque").map(
      (step): Move =>
        (log) =>
          log.add("step.closed", { step: step as "rings" }),
    ),
  },
  {
    weight: 1,
    arbitrary: number.map(
      (rod): Move =>
        (log) =>
          log.photo("cotter", { rod }, "final_torque"),
    ),
  },
  {
    weight: 1,
    arbitrary: number.map(
      (rod): Move =>
        (log) =>
          log.add("note.made", { note: { kind: "cotter", state: "fitted", text: "cotter in", place: { fastener: "rod", rod } } }),
    ),
  },
  {
    weight: 1,
    arbitrary: fc.constantFrom("0.0002", "0.0005").map(
      (uncertainty): Move =>
        (log) =>
          log.add("instrument.kept", {
            instrument: "gauge",
            kind: "gauge",
            resolution: "0.0001",
            uncertainty,
            unit: "in",
            quantities: ["bore_diameter"],
          }),
    ),
  },
);

describe("random logs", () => {
  it("event by event comes to the same as all at once", () => {
    fc.assert(
      fc.property(fc.array(move, { minLength: 5, maxLength: 60 }), (moves) => {
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
