// What a blank sheet asks for, by what the engine has: readings and photo proofs of its steps (common practice, no source).
import { type Engine, isPlainAt, suits, type Trait } from "../engine.ts";
import type { Expected, Proof } from "../spec.ts";
import { USUAL } from "./limits.ts";

interface Asked {
  readonly needs?: readonly Trait[];
  /** Only where the bearing of this place is plain. */
  readonly plain?: { readonly main?: number };
}

const VALVES: Asked = { needs: ["valves"] };

const EXPECTED: readonly (readonly [Expected, Asked?])[] = [
  [{ step: "bores", quantity: "bore_diameter", condition: "as_found", each: ["cylinder", "depth", "axis"] }],
  [{ step: "crankshaft", quantity: "main_journal_diameter", each: ["main"] }, { plain: { main: 1 } }],
  [{ step: "crankshaft", quantity: "crankpin_diameter", each: ["rod"] }, { plain: {} }],
  [{ step: "main_bearings", quantity: "bearing_clearance", each: ["main"] }, { plain: { main: 1 } }],
  [{ step: "end_float", quantity: "crank_end_float", each: [] }],
  [{ step: "cam", quantity: "lobe_lift", each: ["cylinder", "valve"] }, VALVES],
  [{ step: "finish_bores", quantity: "bore_diameter", condition: "final", each: ["cylinder"] }],
  [{ step: "pistons", quantity: "piston_skirt_diameter", each: ["cylinder"] }],
  [{ step: "rings", quantity: "ring_end_gap", each: ["cylinder", "ring"] }],
  [{ step: "oil_pump", quantity: "oil_pump_end_clearance", each: [] }, { needs: ["oil_pump"] }],
  [{ step: "rod_fit", quantity: "bearing_clearance", each: ["rod"] }, { plain: {} }],
  [{ step: "rod_fit", quantity: "rod_side_clearance", condition: "final", each: ["rod"] }],
  [{ step: "deck", quantity: "deck_protrusion", condition: "final", each: ["cylinder"] }],
  [{ step: "valves", quantity: "valve_lash", condition: "final", each: ["cylinder", "valve"] }, { needs: ["lash"] }],
  [{ step: "splash", quantity: "dipper_depth", each: ["rod"] }, { needs: ["dippers"] }],
  [{ step: "turn_over", quantity: "turning_torque", each: [] }],
  [{ step: "first_run", quantity: "oil_pressure", each: [] }, { needs: ["oil_pump"] }],
  [{ step: "run_in", quantity: "run_in_time", each: [] }],
  [{ step: "first_run", quantity: "compression_pressure", condition: "final", each: ["cylinder"] }],
];

const proof = (id: string, step: Proof["step"], each: Proof["each"], title: string, needs: readonly Trait[] = []) =>
  [{ id, step, each, title, source: USUAL }, needs] as const;

const PROOFS: readonly (readonly [Proof, readonly Trait[]])[] = [
  proof("cap_marks", "teardown", "rod", "Rod and cap numbers before the cap comes off", ["rod_caps"]),
  proof("timing_marks", "teardown", "engine", "Timing marks in line", ["valves"]),
  proof("bore_hatch", "finish_bores", "cylinder", "Bore wall with its cross-hatch"),
  proof("galleries", "final_wash", "engine", "Washed, oil ways brushed through"),
  proof("core_plugs", "core_plugs", "engine", "Core plugs fitted", ["water"]),
  proof("front_mark", "piston_assembly", "cylinder", "Front mark on the piston crown, as it goes in"),
  proof("timing_set", "valve_timing", "engine", "Timing marks in line as fitted", ["valves"]),
  proof("cotter", "final_torque", "rod", "Cotters in, legs bent, slots visible", ["cotters", "rod_caps"]),
  proof("wire", "final_torque", "rod", "Lock wire on, pulling tight", ["wires", "rod_caps"]),
  proof("tab", "final_torque", "rod", "Lock tabs bent up", ["tabs", "rod_caps"]),
  proof("dipper", "splash", "rod", "Dipper mouth with the way of turning", ["dippers", "rod_caps"]),
  proof("ignition_set", "ignition_timing", "engine", "Ignition mark at the point of firing", ["spark"]),
];

/** Readings that an engine's steps need. */
export const blankExpected = (engine: Engine): Expected[] =>
  EXPECTED.filter(
    ([, asked = {}]) => suits(engine, asked.needs) && (asked.plain === undefined || isPlainAt(engine, asked.plain)),
  ).map(([row]) => row);

/** Pictures that an engine's steps need. */
export const blankProofs = (engine: Engine): Proof[] => PROOFS.filter(([, needs]) => suits(engine, needs)).map(([row]) => row);
