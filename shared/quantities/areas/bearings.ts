// Bearings, shims and floats.
import type { Quantity } from "../types.ts";

export const BEARINGS: readonly Quantity[] = [
  {
    id: "bearing_clearance", label: "Bearing clearance", said: "clearance",
    spoken: ["clearance", "bearing clearance", "oil clearance", "running clearance"],
    unit: "in", needs: [], needsOneOf: ["main", "rod"], may: ["end"],
    band: { low: 0, high: 0.012 }, resolution: 0.0005, scale: "thou", sign: "never", steps: ["main_bearings", "rod_fit"],
  },
  {
    id: "shim_thickness", label: "Shim pack", said: "shim", spoken: ["shim", "shims", "shim pack", "shim thickness"],
    unit: "in", needs: ["side"], needsOneOf: ["main", "rod"], may: [], listAlong: "side",
    band: { low: 0, high: 0.03 }, resolution: 0.0005, scale: "thou", sign: "never", steps: ["teardown", "main_bearings", "rod_fit"],
  },
  {
    id: "crank_end_float", label: "Crank end float", said: "end float",
    spoken: ["end float", "crank end float", "end play", "crank end play"],
    unit: "in", needs: [], may: [],
    band: { low: 0, high: 0.04 }, resolution: 0.0005, scale: "thou", sign: "never", steps: ["end_float", "intake"],
  },
  {
    id: "cam_end_float", label: "Cam end float", said: "cam end float", spoken: ["cam end float", "cam end play", "camshaft end float"],
    unit: "in", needs: [], may: [],
    band: { low: 0, high: 0.04 }, resolution: 0.0005, scale: "thou", sign: "never", steps: ["cam"],
  },
];
