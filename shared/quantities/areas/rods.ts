// Connecting rods, piston pins and the fits between them; masses.
import type { Quantity } from "../types.ts";

const MANDREL = { label: "over", unit: "in", low: 0.5, high: 24, required: true } as const;

export const RODS: readonly Quantity[] = [
  {
    id: "rod_side_clearance", label: "Rod side clearance", said: "side clearance",
    spoken: ["side", "rod side", "side clearance", "side play", "rod side clearance", "rod side play"],
    unit: "in", needs: ["rod"], may: [],
    band: { low: 0.002, high: 0.03 }, resolution: 0.001, scale: "thou", sign: "never", steps: ["rod_fit", "teardown"],
  },
  {
    id: "rod_bend", label: "Rod bend", said: "bend", spoken: ["bent", "bend", "rod bend"],
    unit: "in", needs: ["rod"], may: [], over: MANDREL,
    band: { low: 0, high: 0.03 }, resolution: 0.0005, scale: "thou", sign: "never", steps: ["rods"],
  },
  {
    id: "rod_twist", label: "Rod twist", said: "twist", spoken: ["twist", "twisted", "rod twist"],
    unit: "in", needs: ["rod"], may: [], over: MANDREL,
    band: { low: 0, high: 0.03 }, resolution: 0.0005, scale: "thou", sign: "never", steps: ["rods"],
  },
  {
    id: "rod_length_dev", label: "Rod length against master", said: "rod length",
    spoken: ["rod length", "length", "rod length deviation"],
    unit: "in", needs: ["rod"], may: [],
    band: { low: -0.02, high: 0.02 }, resolution: 0.001, scale: "thou", sign: "deviation", steps: ["rods"],
  },
  {
    id: "mass", label: "Mass", said: "mass", spoken: ["weighs", "weight", "mass"],
    unit: "g", needs: [], needsOneOf: ["cylinder", "rod"], may: ["part", "end"],
    band: { low: 50, high: 2500 }, resolution: 1, scale: "plain", sign: "never", steps: ["rods", "pistons"],
  },
  {
    id: "pin_diameter", label: "Pin diameter", said: "pin", spoken: ["pin", "wrist pin", "piston pin", "gudgeon pin", "pin diameter"],
    unit: "in", needs: ["cylinder"], may: ["end"],
    band: { nominal: "pin", low: -0.02, high: 0.02 }, resolution: 0.0001, scale: "inch_digits", sign: "never", steps: ["pins"],
  },
  {
    id: "bush_id", label: "Rod bush bore", said: "bush", spoken: ["bush", "bushing", "rod bush", "small end", "bush bore"],
    unit: "in", needs: ["cylinder"], may: ["end"],
    band: { nominal: "pin", low: -0.02, high: 0.02 }, resolution: 0.0001, scale: "inch_digits", sign: "never", steps: ["pins"],
  },
  {
    id: "boss_id", label: "Piston boss bore", said: "boss", spoken: ["boss", "piston boss", "boss bore", "pin hole"],
    unit: "in", needs: ["cylinder"], may: ["end"],
    band: { nominal: "pin", low: -0.02, high: 0.02 }, resolution: 0.0001, scale: "inch_digits", sign: "never", steps: ["pins"],
  },
  {
    id: "pin_fit_bush", label: "Pin fit in rod bush", said: "pin fit in the bush",
    spoken: ["bush fit", "pin fit in the bush", "pin in bush", "bushing fit"],
    unit: "in", needs: ["cylinder"], may: [],
    band: { low: -0.001, high: 0.004 }, resolution: 0.0001, scale: "tenths_word", sign: "fit", steps: ["pins"],
  },
  {
    id: "pin_fit_boss", label: "Pin fit in piston", said: "pin fit in the piston",
    spoken: ["boss fit", "pin fit in the piston", "pin fit in the boss", "pin in piston", "piston pin fit"],
    unit: "in", needs: ["cylinder"], may: [],
    band: { low: -0.001, high: 0.004 }, resolution: 0.0001, scale: "tenths_word", sign: "fit", steps: ["pins"],
  },
];
