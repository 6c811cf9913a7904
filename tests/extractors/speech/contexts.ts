// Moments of the job that tests speak into.
import type { Context } from "../../../shared/events/reading.ts";

const ringGap = { quantity: "ring_end_gap", place: { cylinder: 3, ring: "second" }, value: 0.014, unit: "in" } as const;
const rodNut = { quantity: "fastener_torque", place: { fastener: "rod", rod: 1, nut: "a" }, value: 36, unit: "ft_lbf" } as const;

export const CONTEXTS = {
  none: {},
  ringGap: { quantity: "ring_end_gap", place: ringGap.place, last: ringGap },
  bore: { quantity: "bore_diameter", place: { cylinder: 2, depth: "bottom", axis: "axial" } },
  rodClearance: { quantity: "bearing_clearance", place: { rod: 4 } },
  pinFit: { quantity: "pin_fit_bush", place: { cylinder: 2 } },
  rodNut: { quantity: "fastener_torque", place: rodNut.place, last: rodNut },
  metricFloat: { quantity: "crank_end_float", unit_system: "metric" },
  metricBore: { quantity: "bore_diameter", unit_system: "metric", place: { cylinder: 4, depth: "top", axis: "thrust" } },
  metricGap: { quantity: "ring_end_gap", unit_system: "metric", place: ringGap.place },
  rodFit: { step: "rod_fit" },
} as const satisfies Record<string, Context>;
