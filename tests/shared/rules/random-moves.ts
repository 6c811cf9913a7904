// Random moves at the bench for the rules' tests: readings of every kind, answers, corrections, parts, steps, photos, notes, gauges.
import fc from "fast-check";
import type { EventData } from "../../../shared/events/events.ts";
import { AXES, DEPTHS, ENDS, type Place, SIDES, VALVES } from "../../../shared/places/places.ts";
import { QUANTITIES } from "../../../shared/quantities/registry.ts";
import type { QuantityId } from "../../../shared/quantities/types.ts";
import { DEMO_SPEC } from "../../../shared/spec/demo-engine.ts";
import { type BenchLog, reading } from "./bench-log.ts";

/** One thing done at the bench; `taken` are the readings so far, for those that speak of one. */
export type Move = (log: BenchLog, taken: string[]) => void;

const number = fc.integer({ min: 1, max: 4 });
const main = fc.integer({ min: 1, max: 3 });
const cylinder = fc.record({ cylinder: number });
const rod = fc.record({ rod: number });
const valve = fc.record({ cylinder: number, valve: fc.constantFrom(...VALVES) });
const ring = fc.record({ cylinder: number, ring: fc.constantFrom(...DEMO_SPEC.engine.rings) });
const nut = fc.record({ fastener: fc.constant("rod" as const), rod: number, nut: fc.constantFrom(...SIDES) });
const journal = fc.oneof(rod, fc.record({ main }));
const nowhere = fc.constant<Place>({});

type Said = readonly [QuantityId, Place, number];
/** Values in ten-thousandths, or in hundredths where `step` says so. */
const said = (quantity: QuantityId, place: fc.Arbitrary<Place>, low: number, high: number, step = 10000): fc.Arbitrary<Said> =>
  fc.tuple(
    fc.constant(quantity),
    place,
    fc.integer({ min: low, max: high }).map((n) => n / step),
  );

const SAID: readonly fc.Arbitrary<Said>[] = [
  said(
    "bore_diameter",
    fc.record({ cylinder: number, depth: fc.constantFrom(...DEPTHS), axis: fc.constantFrom(...AXES) }),
    38750,
    38900,
  ),
  said("bore_diameter", cylinder, 39040, 39060),
  said("score_depth", fc.record({ cylinder: number, depth: fc.constantFrom(...DEPTHS) }), 0, 100),
  said("bore_oversize", fc.oneof(nowhere, cylinder), 100, 400),
  said("piston_oversize", nowhere, 100, 400),
  said("piston_skirt_diameter", cylinder, 39000, 39020),
  said("piston_clearance", cylinder, 20, 70),
  said("ring_end_gap", ring, 90, 220),
  said(
    "ring_end_gap",
    fc.record({ cylinder: number, ring: fc.constantFrom(...DEMO_SPEC.engine.rings), depth: fc.constantFrom(...DEPTHS) }),
    90,
    220,
  ),
  said("ring_side_clearance", ring, 5, 50),
  said("ring_gap_clock", ring, 0, 35, 0.1),
  said("main_journal_diameter", fc.record({ main }), 19900, 20000),
  said("crankpin_diameter", fc.record({ rod: number, end: fc.constantFrom(...ENDS) }), 18700, 18750),
  said("journal_out_of_round", journal, 0, 20),
  said("journal_undersize", journal, -300, -100),
  said("crank_runout_tir", fc.record({ main }), 0, 50),
  said("bearing_clearance", journal, 10, 50),
  said("bearing_clearance", fc.record({ rod: number, end: fc.constantFrom(...ENDS) }), 10, 50),
  said("shim_thickness", fc.record({ rod: number, side: fc.constantFrom(...SIDES) }), 80, 120),
  said("crank_end_float", nowhere, 20, 150),
  said("pin_diameter", cylinder, 8740, 8760),
  said("bush_id", cylinder, 8745, 8765),
  said("pin_fit_bush", cylinder, 0, 15),
  said("mass", fc.record({ cylinder: number, part: fc.constant("piston") }), 500, 520, 1),
  said("deck_protrusion", cylinder, 0, 300),
  said("gasket_thickness", nowhere, 500, 700),
  said("piston_to_head", cylinder, 300, 700),
  said("chamber_volume", cylinder, 220, 228, 1),
  said("valve_lash", valve, 80, 140),
  said("valve_lash", fc.record({ cylinder: number, valve: fc.constantFrom(...VALVES), stage: fc.constant("hot") }), 60, 120),
  said("guide_id", valve, 3730, 3760),
  said("valve_stem_diameter", valve, 3715, 3722),
  said("valve_guide_clearance", valve, 10, 60),
  said("valve_spring_force", valve, 38, 50, 1),
  said("lobe_lift", valve, 2700, 2850),
  said("compression_pressure", cylinder, 55, 80, 1),
  said("turning_torque", fc.oneof(nowhere, fc.constant({ stage: "crank" })), 4, 40, 1),
  said("fastener_torque", nut, 30, 46, 1),
  said("castle_nut_angle", nut, 0, 30, 1),
  said("part_temperature", fc.constant({ part: "block" }), 15, 32, 1),
];

const pick = (taken: readonly string[], at: number): string | undefined => taken[at % Math.max(1, taken.length)];

const take: fc.Arbitrary<Move> = fc
  .tuple(fc.oneof(...SAID), fc.boolean(), fc.constantFrom("as_found" as const, "final" as const))
  .map(([[quantity, place, value], sure, condition]) => (log: BenchLog, taken: string[]) => {
    taken.push(log.read(quantity, place, value, { condition, do: sure ? "accept" : "confirm" }));
  });

const answer: fc.Arbitrary<Move> = fc
  .tuple(fc.nat(60), fc.constantFrom("reading.struck" as const, "reading.confirmed" as const, "reading.rejected" as const))
  .map(([at, type]) => (log: BenchLog, taken: string[]) => {
    const target = pick(taken, at);
    if (target !== undefined) log.add(type, { target });
  });

const correct: fc.Arbitrary<Move> = fc
  .tuple(fc.nat(60), fc.oneof(...SAID))
  .map(([at, [quantity, place, value]]) => (log: BenchLog, taken: string[]) => {
    const target = pick(taken, at);
    if (target !== undefined) log.add("reading.corrected", { target, reading: reading(quantity, place, value) });
  });

const retag: fc.Arbitrary<Move> = fc.tuple(fc.nat(60), number).map(([at, to]) => (log: BenchLog, taken: string[]) => {
  const target = pick(taken, at);
  if (target !== undefined) log.add("reading.retagged", { target, place: { cylinder: to } });
});

const PARTS = ["piston", "bore", "rod_bearing", "rings", "crank", "guide", "head"] as const;
const change: fc.Arbitrary<Move> = fc.tuple(fc.constantFrom(...PARTS), number).map(([part, n]) => (log: BenchLog) => {
  log.add("part.changed", {
    part,
    place: part === "rod_bearing" || part === "crank" ? { rod: n } : { cylinder: n },
    what: "changed",
  });
});

const STEPS = ["bores", "rings", "rod_fit", "deck", "valves", "final_torque", "splash", "hand_over"] as const;
const step: fc.Arbitrary<Move> = fc.tuple(fc.constantFrom(...STEPS), fc.boolean()).map(
  ([at, close]) =>
    (log: BenchLog) =>
      void log.add(close ? "step.closed" : "step.opened", { step: at }),
);

const photo: fc.Arbitrary<Move> = fc
  .tuple(fc.constantFrom("cotter", "gauge_strip", "dipper"), number, fc.nat(5))
  .map(([proof, n, fingerprint]) => (log: BenchLog, taken: string[]) => {
    const id = log.photo(
      proof,
      { rod: n },
      proof === "cotter" ? "final_torque" : "rod_fit",
      fingerprint === 5 ? "mouth trailing" : undefined,
    );
    if (fingerprint === 4) log.add("photo.filed", { target: id, place: { rod: (n % 4) + 1 }, proof });
    if (taken.length > 1000) taken.length = 0;
  });

const NOTES: readonly EventData["note.made"]["note"][] = [
  { kind: "cotter", state: "fitted", text: "cotter in" },
  { kind: "castle_state", state: "backed_off", text: "backed it off" },
  { kind: "castle_state", state: "aligned", text: "slot lined up" },
  { kind: "inspection", state: "fail", text: "no good" },
  { kind: "inspection", state: "pass", text: "good" },
];
const note: fc.Arbitrary<Move> = fc.tuple(fc.constantFrom(...NOTES), nut).map(
  ([made, place]) =>
    (log: BenchLog) =>
      void log.add("note.made", { note: { ...made, place } }),
);

const GAUGED: readonly QuantityId[] = ["bore_diameter", "ring_end_gap", "valve_lash"];
const gauge: fc.Arbitrary<Move> = fc
  .tuple(fc.constantFrom("0.0002", "0.0005"), fc.constantFrom(...GAUGED), fc.boolean())
  .map(([uncertainty, quantity, zero]) => (log: BenchLog) => {
    const instrument = `gauge for ${QUANTITIES[quantity].said}`;
    log.add("instrument.kept", {
      instrument,
      kind: "gauge",
      resolution: "0.0001",
      uncertainty,
      unit: "in",
      quantities: [quantity],
    });
    if (zero) log.add("instrument.zeroed", { instrument, deviation: uncertainty, unit: "in" });
  });

const revise: fc.Arbitrary<Move> = fc.boolean().map((overhead) => (log: BenchLog) => {
  const layout = overhead ? ("overhead_valve" as const) : ("side_valve" as const);
  log.add("spec.revised", { spec: { ...DEMO_SPEC, version: 2, engine: { ...DEMO_SPEC.engine, layout } } });
});

const accept: fc.Arbitrary<Move> = fc.tuple(fc.constantFrom(...DEMO_SPEC.limits.map((limit) => limit.id)), number).map(
  ([rule, n]) =>
    (log: BenchLog) =>
      void log.add("finding.accepted", { rule, place: { cylinder: n }, why: "shown", by: "bench" }),
);

export const MOVES: fc.Arbitrary<Move> = fc.oneof(
  { weight: 30, arbitrary: take },
  { weight: 6, arbitrary: answer },
  { weight: 3, arbitrary: correct },
  { weight: 2, arbitrary: retag },
  { weight: 3, arbitrary: change },
  { weight: 4, arbitrary: step },
  { weight: 4, arbitrary: photo },
  { weight: 4, arbitrary: note },
  { weight: 1, arbitrary: gauge },
  { weight: 1, arbitrary: revise },
  { weight: 1, arbitrary: accept },
);
