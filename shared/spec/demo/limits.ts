// The demo engine's limits. Invented sheet; where a figure is what the trade usually takes, it says so.
import type { Limit, LimitUnit, Source, Spec } from "../spec.ts";

const SHOP: Source = { kind: "shop", cite: "invented sheet" };
const COMMON: Source = { kind: "common_practice", cite: "common practice, no source" };

type Pair = readonly [low: string | undefined, high: string | undefined];
type Extra = Partial<Pick<Limit, "where" | "condition" | "perInchOf" | "source">>;

const pair = ([low, high]: Pair): Limit["accept"] => ({
  ...(low === undefined ? {} : { low }),
  ...(high === undefined ? {} : { high }),
});

function limit(id: string, on: string, unit: LimitUnit, accept: Pair, reject?: Pair, extra: Extra = {}): Limit {
  return {
    id,
    on,
    accept: pair(accept),
    ...(reject === undefined ? {} : { reject: pair(reject) }),
    unit,
    source: SHOP,
    ...extra,
  };
}

const most = (high: string): Pair => [undefined, high];
const FOUND = { condition: "as_found" } as const;
const FINAL = { condition: "final" } as const;

const BORES: Limit[] = [
  limit("bore_out_of_round_rering", "bore_out_of_round", "in", most("0.003"), undefined, { ...FOUND, source: COMMON }),
  limit("bore_taper_rering", "bore_taper", "in", most("0.006"), undefined, { ...FOUND, source: COMMON }),
  limit("bore_wear_rering", "bore_wear", "in", most("0.008"), undefined, { ...FOUND, source: COMMON }),
  limit("bore_out_of_round_finish", "bore_out_of_round", "in", most("0.0005"), undefined, FINAL),
  limit("bore_taper_finish", "bore_taper", "in", most("0.0005"), undefined, FINAL),
  limit("bore_finish_ra", "surface_ra", "uin", ["15", "40"], undefined, { source: COMMON }),
];

const CRANK: Limit[] = [
  limit("journal_out_of_round", "journal_out_of_round", "in", most("0.001")),
  limit("journal_taper", "journal_taper", "in", most("0.001")),
  limit("journal_wear", "journal_wear", "in", most("0.003"), undefined, { ...FOUND, source: COMMON }),
  limit("bearing_taper", "bearing_taper", "in", most("0.0005"), most("0.0010"), { source: COMMON }),
  limit("crank_bend", "crank_bend", "in", most("0.001"), most("0.002")),
  limit("main_clearance", "main_clearance", "in", ["0.0015", "0.0025"], ["0.0015", "0.0040"]),
  limit("rod_clearance", "rod_clearance", "in", ["0.0015", "0.0025"], ["0.0015", "0.0035"]),
  limit("crank_end_float", "crank_end_float", "in", ["0.004", "0.008"], ["0.004", "0.012"], FINAL),
  limit("rod_side_clearance", "rod_side_clearance", "in", ["0.006", "0.012"], ["0.006", "0.018"], FINAL),
  limit("cam_end_float", "cam_end_float", "in", ["0.003", "0.007"], ["0.003", "0.012"], { source: COMMON }),
  limit("lobe_lift_spread", "lobe_lift_spread", "in", most("0.005"), undefined, { source: COMMON }),
  limit("flywheel_runout", "flywheel_runout", "in", most("0.005"), most("0.008"), { source: COMMON }),
  limit("cam_runout", "cam_runout", "in", most("0.002"), most("0.004"), { source: COMMON }),
  limit("lobe_wear", "lobe_wear", "in", most("0.005"), most("0.010"), { source: COMMON }),
  limit("gear_backlash", "gear_backlash", "in", ["0.002", "0.006"], ["0.001", "0.010"], { source: COMMON }),
];

const RODS: Limit[] = [
  limit("rod_bend", "rod_bend_per_inch", "in_per_in", most("0.0005"), most("0.0010")),
  limit("rod_twist", "rod_twist_per_inch", "in_per_in", most("0.0005"), most("0.0010")),
  limit("rod_length", "rod_length_dev", "in", ["-0.002", "0"], ["-0.004", "0"], { source: COMMON }),
  limit("mass_spread", "mass_spread", "g", most("5"), most("8"), { source: COMMON }),
  limit("pin_fit_bush", "pin_fit_bush", "in", ["0.0003", "0.0008"], undefined),
  limit("pin_fit_boss", "pin_fit_boss", "in", ["-0.0002", "0.0003"], ["-0.0004", "0.0006"]),
];

const PISTONS: Limit[] = [
  limit("piston_clearance", "piston_clearance", "in", ["0.0030", "0.0045"], ["0.0030", "0.0060"]),
  limit("ring_end_gap", "ring_end_gap", "in", ["0.0030", "0.0045"], undefined, { perInchOf: "bore" }),
  limit("ring_end_gap_oil", "ring_end_gap", "in", ["0.008", "0.020"], ["0.008", "0.030"], { where: { ring: "oil" } }),
  limit("ring_side_clearance", "ring_side_clearance", "in", ["0.0010", "0.0025"], ["0.0010", "0.0040"]),
  limit("ring_side_clearance_oil", "ring_side_clearance", "in", ["0.0010", "0.0030"], ["0.0010", "0.0040"], {
    where: { ring: "oil" },
  }),
];

const HEAD: Limit[] = [
  limit("piston_to_head", "piston_to_head", "in", ["0.045", "0.070"]),
  limit("deck_protrusion", "deck_protrusion", "in", ["0.004", "0.020"], ["-0.005", "0.040"], FINAL),
  limit("compression_ratio", "compression_ratio", "ratio", ["4.45", "4.75"]),
  limit("chamber_volume", "chamber_volume", "cc", ["223", "227"]),
  limit("chamber_spread", "chamber_spread", "cc", most("2"), undefined, { source: COMMON }),
  limit("deck_flatness", "flatness", "in", most("0.004"), undefined, { source: COMMON }),
];

const VALVES: Limit[] = [
  limit("valve_lash_intake", "valve_lash", "in", ["0.009", "0.011"], undefined, { ...FINAL, where: { valve: "intake" } }),
  limit("valve_lash_exhaust", "valve_lash", "in", ["0.011", "0.013"], undefined, { ...FINAL, where: { valve: "exhaust" } }),
  limit("valve_lash_intake_hot", "valve_lash", "in", ["0.007", "0.009"], undefined, {
    ...FINAL,
    where: { valve: "intake", stage: "hot" },
  }),
  limit("valve_lash_exhaust_hot", "valve_lash", "in", ["0.009", "0.011"], undefined, {
    ...FINAL,
    where: { valve: "exhaust", stage: "hot" },
  }),
  limit("guide_clearance_intake", "valve_guide_clearance", "in", ["0.0015", "0.0030"], ["0.0015", "0.0050"], {
    where: { valve: "intake" },
  }),
  limit("guide_clearance_exhaust", "valve_guide_clearance", "in", ["0.0025", "0.0040"], ["0.0025", "0.0050"], {
    where: { valve: "exhaust" },
  }),
  limit("seat_width_intake", "valve_seat_width", "in", ["0.055", "0.075"], undefined, { where: { valve: "intake" } }),
  limit("seat_width_exhaust", "valve_seat_width", "in", ["0.085", "0.105"], undefined, { where: { valve: "exhaust" } }),
  limit("valve_spring_force", "valve_spring_force", "lbf", ["42", "48"], ["40.5", "60"]),
];

const RUNNING: Limit[] = [
  limit("dipper_depth", "dipper_depth", "in", ["0.19", "0.31"]),
  limit("turning_torque_crank", "turning_torque", "ft_lbf", most("8"), undefined, { ...FINAL, where: { stage: "crank" } }),
  limit("turning_torque", "turning_torque", "ft_lbf", most("30"), most("35"), FINAL),
  limit("compression_pressure", "compression_pressure", "psi", ["60", "80"], ["50", "95"], FINAL),
  limit("compression_spread", "compression_spread", "percent", most("10"), most("15"), { ...FINAL, source: COMMON }),
  limit("crack", "crack_indication", "in", most("0"), undefined, { source: COMMON }),
];

export const DEMO_LIMITS: Spec["limits"] = [...BORES, ...CRANK, ...RODS, ...PISTONS, ...HEAD, ...VALVES, ...RUNNING];
