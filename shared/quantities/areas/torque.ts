// Tightening, castle nuts and turning effort.
import type { Quantity } from "../types.ts";

export const TORQUE: readonly Quantity[] = [
  {
    id: "fastener_torque", label: "Torque", said: "torque", spoken: ["torque", "torqued", "nut", "nuts", "pulled", "tightened"],
    unit: "ft_lbf", needs: ["fastener"], may: ["rod", "main", "nut", "stage"], listAlong: "nut",
    band: { low: 3, high: 150 }, resolution: 1, scale: "plain", sign: "never", steps: ["final_torque", "rod_fit", "main_bearings"],
  },
  {
    id: "castle_nut_angle", label: "Castle nut to slot", said: "to the slot",
    spoken: ["short of the slot", "short of the hole", "to the slot", "past the slot", "short"],
    unit: "deg", needs: ["fastener"], may: ["rod", "main", "nut"],
    band: { low: 0, high: 60 }, resolution: 1, scale: "plain", sign: "never", steps: ["final_torque", "rod_fit"],
  },
  {
    id: "turning_torque", label: "Turning torque", said: "turns at",
    spoken: ["turns at", "crank turns at", "turning torque", "drag", "rolls at", "breakaway"],
    unit: "ft_lbf", needs: [], may: ["stage"],
    band: { low: 0, high: 60 }, resolution: 1, scale: "plain", sign: "never", steps: ["turn_over", "rod_fit", "intake"],
  },
];
