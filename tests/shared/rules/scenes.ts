// Short scenes that several rule tests play: a bore measured, shims, ring clocks, one torque in two units.
import { AXES, DEPTHS } from "../../../shared/places/places.ts";
import type { BenchLog } from "./bench-log.ts";

/** Six diameters of one bore, top to bottom, thrust then axial. */
export function bore(
  log: BenchLog,
  cylinder: number,
  sizes: readonly number[],
  condition: "as_found" | "final" = "as_found",
): void {
  DEPTHS.forEach((depth, i) => {
    AXES.forEach((axis, j) => {
      log.read("bore_diameter", { cylinder, depth, axis }, sizes[2 * i + j] ?? 0, { condition });
    });
  });
}

export function shims(log: BenchLog, a: number, b: number): void {
  log.read("shim_thickness", { rod: 1, side: "a" }, 0.011, { condition: "as_found" });
  log.read("shim_thickness", { rod: 1, side: "b" }, 0.01, { condition: "as_found" });
  log.read("shim_thickness", { rod: 1, side: "a" }, a, { condition: "final" });
  log.read("shim_thickness", { rod: 1, side: "b" }, b, { condition: "final" });
}

export function clocks(log: BenchLog, positions: readonly number[]): void {
  (["top", "second", "oil"] as const).forEach((ring, i) => {
    log.read("ring_gap_clock", { cylinder: 1, ring }, positions[i] ?? 0);
  });
}

export function pair(log: BenchLog, foot: string, newton: string): void {
  const utterance = log.add("utterance.heard", { text: `${foot} foot pounds, ${newton} newton metres`, by: "typed" });
  const place = { fastener: "manifold", nut: 1 } as const;
  for (const [digits, unit] of [
    [foot, "ft_lbf"],
    [newton, "N_m"],
  ] as const) {
    const value = Number(digits);
    log.add("reading.taken", {
      utterance,
      reading: { quantity: "fastener_torque", place, value, unit, digits, implied: [], do: "accept", span: [0, 1] },
    });
  }
}
