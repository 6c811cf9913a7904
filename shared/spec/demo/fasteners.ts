// Threads, torques and lubricant of the demo engine's fasteners. Invented.
import type { Spec } from "../spec.ts";

const source = { kind: "shop" as const, cite: "invented sheet" };
/** Bolts of 85 ksi proof strength (SAE J429 grade 5, from memory; Shigley, Table 8-9). */
const common = { castle: true, unit: "ft_lbf" as const, k: "0.18", lubricant: "engine oil", proof: "85000", source };

export const DEMO_FASTENERS: Spec["fasteners"] = {
  rod: { ...common, thread: "7/16-20", threadsPerInch: 20, majorDiameter: "0.4375", low: "35", high: "42", count: 8 },
  main: { ...common, thread: "1/2-20", threadsPerInch: 20, majorDiameter: "0.500", low: "70", high: "80", count: 6 },
  head: {
    ...common,
    thread: "7/16-20",
    threadsPerInch: 20,
    majorDiameter: "0.4375",
    low: "50",
    high: "55",
    count: 14,
    castle: false,
    stages: ["20", "38", "52"],
  },
};
