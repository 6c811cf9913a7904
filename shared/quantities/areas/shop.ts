// Splash oiling, compression, temperature, surface and cracks.
import type { Quantity } from "../types.ts";

export const SHOP: readonly Quantity[] = [
  {
    id: "dipper_depth", label: "Dipper depth", said: "dip", spoken: ["dip", "dipper", "dipper depth", "dips"],
    unit: "in", needs: ["rod"], may: [],
    band: { low: 0.05, high: 1 }, resolution: 0.015625, scale: "fraction", sign: "never", steps: ["splash"],
  },
  {
    id: "trough_level", label: "Trough level", said: "trough", spoken: ["trough", "trough level"],
    unit: "in", needs: ["rod"], may: [],
    band: { low: 0.05, high: 1 }, resolution: 0.015625, scale: "fraction", sign: "never", steps: ["splash"],
  },
  {
    id: "compression_pressure", label: "Compression", said: "compression", spoken: ["compression", "compression pressure", "cranking pressure"],
    unit: "psi", needs: ["cylinder"], may: ["stage"],
    band: { low: 10, high: 150 }, resolution: 1, scale: "plain", sign: "never", steps: ["first_run", "intake"],
  },
  {
    id: "part_temperature", label: "Part temperature", said: "temperature", spoken: ["temperature", "is at", "temp"],
    unit: "degC", needs: [], may: ["part"],
    band: { low: 5, high: 45 }, resolution: 0.5, scale: "plain", sign: "never", steps: ["soak", "bores", "crankshaft", "finish_bores", "pistons"],
  },
  {
    id: "surface_ra", label: "Surface roughness Ra", said: "finish", spoken: ["finish", "surface finish", "roughness", "r a"],
    unit: "uin", needs: ["cylinder"], may: [],
    band: { low: 5, high: 80 }, resolution: 1, scale: "plain", sign: "never", steps: ["finish_bores"],
  },
  {
    id: "crack_indication", label: "Crack indication", said: "crack", spoken: ["crack", "crack indication", "indication"],
    unit: "in", needs: [], may: ["part", "cylinder", "main", "rod"],
    band: { low: 0, high: 6 }, resolution: 0.015625, scale: "fraction", sign: "never", steps: ["crack_check"], alwaysConfirm: true,
  },
];
