// Pistons and rings.
import type { Quantity } from "../types.ts";

export const PISTONS: readonly Quantity[] = [
  {
    id: "piston_skirt_diameter", label: "Piston skirt diameter", said: "piston",
    spoken: ["piston", "skirt", "piston skirt", "piston diameter", "skirt diameter"],
    unit: "in", needs: ["cylinder"], may: [],
    band: { nominal: "bore", low: -0.02, high: 0 }, resolution: 0.0001, scale: "inch_digits", sign: "never", steps: ["pistons"],
  },
  {
    id: "piston_oversize", label: "Piston oversize", said: "oversize pistons", spoken: ["oversize pistons", "pistons", "piston oversize"],
    unit: "in", needs: [], may: ["cylinder"],
    band: { low: 0, high: 0.125 }, resolution: 0.001, scale: "thou", sign: "oversize", steps: ["bore_decision", "pistons"],
  },
  {
    id: "piston_clearance", label: "Piston clearance", said: "piston clearance",
    spoken: ["piston clearance", "piston to wall", "skirt clearance", "wall clearance"],
    unit: "in", needs: ["cylinder"], may: [],
    band: { low: 0.001, high: 0.012 }, resolution: 0.0005, scale: "thou", sign: "never", steps: ["pistons"],
  },
  {
    id: "ring_end_gap", label: "Ring end gap", said: "ring gap",
    spoken: ["ring gap", "end gap", "ring end gap", "rings", "gap"],
    unit: "in", needs: ["cylinder", "ring"], may: ["depth"], listAlong: "ring",
    band: { low: 0.004, high: 0.045 }, resolution: 0.001, scale: "thou", sign: "never", steps: ["rings"],
  },
  {
    id: "ring_side_clearance", label: "Ring side clearance", said: "ring side clearance",
    spoken: ["ring side clearance", "ring side", "groove clearance", "ring groove clearance"],
    unit: "in", needs: ["cylinder", "ring"], may: [], listAlong: "ring",
    band: { low: 0, high: 0.01 }, resolution: 0.0005, scale: "thou", sign: "never", steps: ["rings"],
  },
  {
    id: "ring_gap_clock", label: "Ring gap position", said: "ring position",
    spoken: ["ring position", "gap position", "ring clock", "gap at"],
    unit: "deg", needs: ["cylinder", "ring"], may: [], listAlong: "ring",
    band: { low: 0, high: 359 }, resolution: 10, scale: "plain", sign: "never", steps: ["piston_assembly"],
  },
];
