// Crankshaft: journals, form, run-out, undersize.
import type { Quantity } from "../types.ts";

export const CRANK: readonly Quantity[] = [
  {
    id: "main_journal_diameter", label: "Main journal diameter", said: "main journal",
    spoken: ["crank journal", "main journal", "main journal diameter", "journal"],
    unit: "in", needs: ["main"], may: ["end", "angle"],
    band: { nominal: "main_journal", low: -0.045, high: 0.002 }, resolution: 0.0001, scale: "inch_digits", sign: "never",
    steps: ["crankshaft"],
  },
  {
    id: "crankpin_diameter", label: "Crankpin diameter", said: "crankpin",
    spoken: ["crankpin", "crank pin", "rod journal", "throw", "crankpin diameter"],
    unit: "in", needs: ["rod"], may: ["end", "angle"],
    band: { nominal: "crankpin", low: -0.045, high: 0.002 }, resolution: 0.0001, scale: "inch_digits", sign: "never",
    steps: ["crankshaft"],
  },
  {
    id: "journal_out_of_round", label: "Journal out-of-round", said: "out of round",
    spoken: ["out of round", "out of roundness", "oval", "ovality"],
    unit: "in", needs: [], needsOneOf: ["main", "rod"], may: ["end"],
    band: { low: 0, high: 0.006 }, resolution: 0.0001, scale: "small_word", sign: "never", steps: ["crankshaft"],
  },
  {
    id: "journal_taper", label: "Journal taper", said: "taper", spoken: ["taper", "journal taper"],
    unit: "in", needs: [], needsOneOf: ["main", "rod"], may: ["angle"],
    band: { low: 0, high: 0.006 }, resolution: 0.0001, scale: "small_word", sign: "never", steps: ["crankshaft"],
  },
  {
    id: "crank_runout_tir", label: "Crank run-out (TIR)", said: "run-out",
    spoken: ["runout", "run out", "crank runout", "crank run out", "t i r"],
    unit: "in", needs: [], may: ["main"],
    band: { low: 0, high: 0.01 }, resolution: 0.0005, scale: "thou", sign: "never", steps: ["crankshaft"],
  },
  {
    id: "journal_undersize", label: "Journal undersize", said: "undersize",
    spoken: ["journals", "crankpins", "pins", "mains", "ground", "undersize"],
    unit: "in", needs: [], may: ["main", "rod", "part"],
    band: { low: -0.06, high: 0 }, resolution: 0.001, scale: "thou", sign: "undersize", steps: ["crank_decision"],
  },
  {
    id: "stroke", label: "Stroke", said: "stroke", spoken: ["stroke"],
    unit: "in", needs: [], may: ["rod"],
    band: { nominal: "stroke", low: -0.5, high: 0.5 }, resolution: 0.001, scale: "inch_digits", sign: "never", steps: ["crankshaft"],
  },
];
