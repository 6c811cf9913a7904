// What a place or a unit said without a quantity's name can mean, as data; most usual first.
import type { QuantityId } from "../../../shared/quantities/types.ts";
import type { Dimension } from "../../../shared/units/units.ts";

/** `sure` is as good as a name; the rest are guesses that wait for a yes. */
export interface Implied {
  readonly ids: readonly QuantityId[];
  readonly sure: boolean;
}

/** By the slot that was said. */
export const IMPLIED_BY_SLOT: Readonly<Record<string, Implied>> = {
  depth: { ids: ["bore_diameter"], sure: true },
  axis: { ids: ["bore_diameter"], sure: true },
  nut: { ids: ["fastener_torque", "castle_nut_angle"], sure: true },
  fastener: { ids: ["fastener_torque"], sure: false },
  ring: { ids: ["ring_end_gap", "ring_side_clearance"], sure: false },
  valve: {
    ids: ["valve_lash", "valve_guide_clearance", "valve_seat_width", "valve_stem_diameter", "valve_spring_force"],
    sure: false,
  },
  main: { ids: ["bearing_clearance", "main_journal_diameter", "fastener_torque"], sure: false },
  rod: { ids: ["bearing_clearance", "rod_side_clearance", "crankpin_diameter", "fastener_torque"], sure: false },
  cylinder: { ids: ["bore_diameter", "compression_pressure", "chamber_volume"], sure: false },
  part: { ids: ["part_temperature"], sure: false },
};

/** By the dimension of the unit that was said. */
export const IMPLIED_BY_DIMENSION: Readonly<Partial<Record<Dimension, readonly QuantityId[]>>> = {
  torque: ["fastener_torque"],
  pressure: ["compression_pressure"],
  force: ["valve_spring_force"],
  mass: ["mass"],
  volume: ["chamber_volume"],
  temperature: ["part_temperature"],
  angle: ["castle_nut_angle", "ring_gap_clock"],
};
