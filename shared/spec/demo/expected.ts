// The readings the demo engine's steps need. Invented sheet; which to take is common practice, no source.
import type { Expected, Spec } from "../spec.ts";

const row = (
  step: Expected["step"],
  quantity: Expected["quantity"],
  each: Expected["each"],
  extra: Partial<Pick<Expected, "condition" | "where">> = {},
): Expected => ({ step, quantity, each, ...extra });

const FOUND = { condition: "as_found" } as const;
const FINAL = { condition: "final" } as const;

export const DEMO_EXPECTED: Spec["expected"] = [
  row("bores", "bore_diameter", ["cylinder", "depth", "axis"], FOUND),
  row("crankshaft", "main_journal_diameter", ["main"]),
  row("crankshaft", "crankpin_diameter", ["rod"]),
  row("main_bearings", "bearing_clearance", ["main"]),
  row("end_float", "crank_end_float", []),
  row("pins", "pin_fit_bush", ["cylinder"]),
  row("rods", "rod_bend", ["rod"]),
  row("rods", "rod_twist", ["rod"]),
  row("finish_bores", "bore_diameter", ["cylinder"], FINAL),
  row("pistons", "piston_skirt_diameter", ["cylinder"]),
  row("rings", "ring_end_gap", ["cylinder", "ring"]),
  row("rings", "ring_side_clearance", ["cylinder", "ring"]),
  row("rod_fit", "bearing_clearance", ["rod"]),
  row("rod_fit", "rod_side_clearance", ["rod"], FINAL),
  row("deck", "deck_protrusion", ["cylinder"], FINAL),
  row("deck", "chamber_volume", ["cylinder"]),
  row("valves", "valve_guide_clearance", ["cylinder", "valve"]),
  row("valves", "valve_seat_width", ["cylinder", "valve"]),
  row("valves", "valve_spring_force", ["cylinder", "valve"]),
  row("valves", "valve_lash", ["cylinder", "valve"], FINAL),
  row("final_torque", "fastener_torque", ["rod", "nut"], { where: { fastener: "rod" } }),
  row("final_torque", "fastener_torque", ["main", "nut"], { where: { fastener: "main" } }),
  row("final_torque", "fastener_torque", ["stage"], { where: { fastener: "head" } }),
  row("splash", "dipper_depth", ["rod"]),
  row("turn_over", "turning_torque", []),
  row("first_run", "compression_pressure", ["cylinder"], FINAL),
];
