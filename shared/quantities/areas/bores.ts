// Bores and their wear. Bands: demo-size engine, common practice, no source.
import type { Quantity } from "../types.ts";

export const BORES: readonly Quantity[] = [
  {
    id: "bore_diameter", label: "Bore diameter", said: "bore", spoken: ["bore", "bore diameter", "cylinder bore"],
    unit: "in", needs: ["cylinder"], may: ["depth", "axis"], listAlong: "depth",
    band: { nominal: "bore", low: -0.005, high: 0.075 }, resolution: 0.0001, scale: "inch_digits", sign: "never",
    steps: ["bores", "finish_bores"],
  },
  {
    id: "ring_ridge", label: "Ring ridge", said: "ridge", spoken: ["ridge", "ring ridge", "ridge height"],
    unit: "in", needs: ["cylinder"], may: ["depth", "axis"],
    band: { low: 0, high: 0.03 }, resolution: 0.001, scale: "thou", sign: "never", steps: ["bores"],
  },
  {
    id: "score_depth", label: "Score depth", said: "score", spoken: ["score", "score depth", "scoring"],
    unit: "in", needs: ["cylinder"], may: ["depth", "axis"],
    band: { low: 0, high: 0.03 }, resolution: 0.001, scale: "thou", sign: "never", steps: ["bores"],
  },
  {
    id: "bore_oversize", label: "Bore oversize", said: "bored", spoken: ["bored", "bore oversize", "oversize bore"],
    unit: "in", needs: [], may: ["cylinder"],
    band: { low: 0, high: 0.125 }, resolution: 0.001, scale: "thou", sign: "oversize", steps: ["bore_decision", "finish_bores"],
  },
];
