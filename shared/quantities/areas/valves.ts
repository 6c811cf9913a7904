// Valves, guides, seats, springs, cam and gears.
import type { Quantity } from "../types.ts";

export const VALVES: readonly Quantity[] = [
  {
    id: "valve_lash", label: "Valve lash", said: "lash", spoken: ["lash", "valve lash", "tappet", "valve clearance", "tappet clearance"],
    unit: "in", needs: ["cylinder", "valve"], may: ["stage"], listAlong: "valve",
    band: { low: 0.002, high: 0.04 }, resolution: 0.001, scale: "thou", sign: "never", steps: ["valves", "intake", "turn_over", "first_run"],
  },
  {
    id: "valve_stem_diameter", label: "Valve stem diameter", said: "stem", spoken: ["stem", "valve stem", "stem diameter"],
    unit: "in", needs: ["cylinder", "valve"], may: [], listAlong: "valve",
    band: { nominal: "valve_stem", low: -0.02, high: 0.02 }, resolution: 0.0001, scale: "inch_digits", sign: "never", steps: ["valves"],
  },
  {
    id: "guide_id", label: "Valve guide bore", said: "guide bore", spoken: ["guide bore", "guide inside", "guide size", "guide diameter"],
    unit: "in", needs: ["cylinder", "valve"], may: [], listAlong: "valve",
    band: { nominal: "valve_stem", low: -0.02, high: 0.02 }, resolution: 0.0001, scale: "inch_digits", sign: "never", steps: ["valves"],
  },
  {
    id: "valve_guide_clearance", label: "Valve guide clearance", said: "guide clearance",
    spoken: ["guide", "guide clearance", "valve guide", "stem clearance"],
    unit: "in", needs: ["cylinder", "valve"], may: [], listAlong: "valve",
    band: { low: 0.0005, high: 0.015 }, resolution: 0.0005, scale: "small_word", sign: "never", steps: ["valves"],
  },
  {
    id: "valve_seat_width", label: "Valve seat width", said: "seat", spoken: ["seat", "seat width", "valve seat"],
    unit: "in", needs: ["cylinder", "valve"], may: [], listAlong: "valve",
    band: { low: 0.03, high: 0.15 }, resolution: 0.015625, scale: "fraction", sign: "never", steps: ["valves"],
  },
  {
    id: "valve_spring_force", label: "Valve spring force", said: "spring", spoken: ["spring", "valve spring", "spring force", "spring pressure"],
    unit: "lbf", needs: ["cylinder", "valve"], may: [], over: { label: "at", unit: "in", low: 0.5, high: 4, required: false },
    band: { low: 10, high: 200 }, resolution: 1, scale: "plain", sign: "never", steps: ["valves"],
  },
  {
    id: "valve_spring_length", label: "Valve spring free length", said: "spring length",
    spoken: ["spring length", "free length", "spring free length"],
    unit: "in", needs: ["cylinder", "valve"], may: [],
    band: { low: 1, high: 4 }, resolution: 0.015625, scale: "fraction", sign: "never", steps: ["valves"],
  },
  {
    id: "lobe_lift", label: "Lobe lift", said: "lift", spoken: ["lift", "lobe lift", "cam lift"],
    unit: "in", needs: ["cylinder", "valve"], may: [], listAlong: "valve",
    band: { low: 0.1, high: 0.45 }, resolution: 0.001, scale: "inch_digits", sign: "never", steps: ["cam"],
  },
  {
    id: "gear_backlash", label: "Gear backlash", said: "backlash", spoken: ["backlash", "gear backlash", "gear lash"],
    unit: "in", needs: [], may: ["part"],
    band: { low: 0, high: 0.02 }, resolution: 0.0005, scale: "thou", sign: "never", steps: ["cam"],
  },
];
