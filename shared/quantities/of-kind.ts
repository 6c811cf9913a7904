// Quantities that only some engines have, and what an engine must have for them. What is not here every engine has, or its rule speaks of
// it (shims and crush under a bearing that has none).
import type { Trait } from "../spec/engine.ts";
import type { QuantityId } from "./types.ts";

export const NEEDED_FOR: Readonly<Partial<Record<QuantityId, readonly Trait[]>>> = {
  dipper_depth: ["dippers"],
  trough_level: ["dippers"],
  valve_lash: ["lash"],
  valve_stem_diameter: ["valves"],
  guide_id: ["valves"],
  valve_guide_clearance: ["valves"],
  valve_seat_width: ["valves"],
  valve_spring_force: ["valves"],
  valve_spring_length: ["valves"],
  coil_clearance: ["valves"],
  lobe_lift: ["valves"],
  cam_runout: ["valves"],
  cam_end_float: ["valves"],
  piston_to_valve: ["valves"],
  points_gap: ["spark"],
  dwell_angle: ["spark"],
  jacket_pressure: ["water"],
};
