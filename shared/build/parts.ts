// Which quantities are measured on which part: changing the part makes those readings stale (common practice, no source).
import type { EventData } from "../events/events.ts";
import type { PlaceKey } from "../places/places.ts";
import type { QuantityId } from "../quantities/types.ts";

export type PartId = EventData["part.changed"]["part"];

export interface PartRow {
  readonly part: PartId;
  readonly quantities: readonly QuantityId[];
  /** Slots by which the change's place picks the readings; a rod's number is its cylinder's. */
  readonly by: readonly PlaceKey[];
  /** A slot the reading must have, where one quantity serves two parts (a main's clearance, a rod's clearance). */
  readonly only?: PlaceKey;
}

/** Rows by part. A piston that is exchanged takes its clearance, rings, pin fit and height with it. */
export const PARTS: readonly PartRow[] = [
  {
    part: "block",
    quantities: ["bore_diameter", "ring_ridge", "score_depth", "deck_protrusion", "ring_end_gap", "piston_clearance"],
    by: ["cylinder"],
  },
  {
    part: "bore",
    quantities: ["bore_diameter", "ring_ridge", "score_depth", "ring_end_gap", "piston_clearance", "surface_ra"],
    by: ["cylinder"],
  },
  {
    part: "crank",
    quantities: [
      "main_journal_diameter",
      "crankpin_diameter",
      "journal_out_of_round",
      "journal_taper",
      "crank_runout_tir",
      "bearing_clearance",
      "shim_thickness",
      "crank_end_float",
      "rod_side_clearance",
      "turning_torque",
    ],
    by: ["main", "rod"],
  },
  { part: "main_bearing", quantities: ["bearing_clearance"], by: ["main"], only: "main" },
  { part: "rod_bearing", quantities: ["bearing_clearance", "rod_side_clearance"], by: ["rod"], only: "rod" },
  {
    part: "rod",
    quantities: [
      "rod_bend",
      "rod_twist",
      "rod_length_dev",
      "bush_id",
      "pin_fit_bush",
      "bearing_clearance",
      "rod_side_clearance",
      "mass",
      "dipper_depth",
    ],
    by: ["rod", "cylinder"],
  },
  { part: "pin", quantities: ["pin_diameter", "pin_fit_bush", "pin_fit_boss"], by: ["cylinder"] },
  { part: "bush", quantities: ["bush_id", "pin_fit_bush", "rod_bend", "rod_twist"], by: ["cylinder", "rod"] },
  {
    part: "piston",
    quantities: [
      "piston_skirt_diameter",
      "piston_clearance",
      "ring_side_clearance",
      "boss_id",
      "pin_fit_boss",
      "deck_protrusion",
      "piston_to_head",
      "mass",
    ],
    by: ["cylinder"],
  },
  { part: "rings", quantities: ["ring_end_gap", "ring_side_clearance", "ring_gap_clock"], by: ["cylinder", "ring"] },
  { part: "head", quantities: ["chamber_volume", "head_recess", "flatness", "piston_to_head"], by: ["cylinder"] },
  { part: "gasket", quantities: ["gasket_thickness", "gasket_crush", "piston_to_head"], by: [] },
  {
    part: "valve",
    quantities: ["valve_stem_diameter", "valve_guide_clearance", "valve_lash", "valve_seat_width"],
    by: ["cylinder", "valve"],
  },
  { part: "guide", quantities: ["guide_id", "valve_guide_clearance"], by: ["cylinder", "valve"] },
  {
    part: "spring",
    quantities: ["valve_spring_force", "valve_spring_length", "valve_spring_rate", "coil_clearance"],
    by: ["cylinder", "valve"],
  },
  {
    part: "cam",
    quantities: ["lobe_lift", "cam_end_float", "cam_runout", "gear_backlash", "valve_lash", "piston_to_valve"],
    by: ["cylinder", "valve"],
  },
];
