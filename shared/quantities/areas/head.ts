// Deck, gasket, head and chamber.
import type { Quantity } from "../types.ts";

export const HEAD: readonly Quantity[] = [
  {
    id: "deck_protrusion", label: "Piston protrusion", said: "protrusion",
    spoken: ["protrusion", "deck height", "deck", "piston height", "piston protrusion"],
    unit: "in", needs: ["cylinder"], may: ["end"],
    band: { low: -0.06, high: 0.06 }, resolution: 0.0005, scale: "thou", sign: "deck", steps: ["deck", "teardown"],
  },
  {
    id: "gasket_thickness", label: "Gasket thickness", said: "gasket", spoken: ["gasket", "gasket thickness", "head gasket"],
    unit: "in", needs: [], may: [],
    band: { low: 0.01, high: 0.12 }, resolution: 0.001, scale: "thou", sign: "never", steps: ["deck"],
  },
  {
    id: "head_recess", label: "Head recess", said: "recess", spoken: ["recess", "head recess", "head depth"],
    unit: "in", needs: [], may: ["cylinder"],
    band: { low: 0.01, high: 0.12 }, resolution: 0.001, scale: "thou", sign: "never", steps: ["deck"],
  },
  {
    id: "piston_to_head", label: "Piston to head", said: "piston to head",
    spoken: ["piston to head", "head clearance", "solder", "squish"],
    unit: "in", needs: ["cylinder"], may: [],
    band: { low: 0.01, high: 0.15 }, resolution: 0.001, scale: "thou", sign: "never", steps: ["deck"],
  },
  {
    id: "chamber_volume", label: "Chamber volume", said: "chamber", spoken: ["chamber", "chamber volume", "combustion chamber"],
    unit: "cc", needs: ["cylinder"], may: [],
    band: { low: 50, high: 600 }, resolution: 0.5, scale: "plain", sign: "never", steps: ["deck"],
  },
  {
    id: "flatness", label: "Flatness", said: "flatness", spoken: ["flatness", "warp", "flat within", "out of flat"],
    unit: "in", needs: ["part"], may: [], over: { label: "over", unit: "in", low: 1, high: 60, required: false },
    band: { low: 0, high: 0.03 }, resolution: 0.0005, scale: "thou", sign: "never", steps: ["deck"],
  },
];
