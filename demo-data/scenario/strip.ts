// Intake and strip-down: what came in, before a nut was turned.
import type { Line } from "../scenario.ts";

const gauge = (
  instrument: string,
  kind: string,
  resolution: string,
  uncertainty: string,
  quantities: string[],
  unit: "in" | "ft_lbf" | "cc" = "in",
  more: { readonly range?: string; readonly calibrated?: string; readonly certificate?: string } = {},
): Line => ({
  keep: { instrument, kind, resolution, uncertainty, unit, quantities, ...more },
  wait: 0,
});

const zero = (instrument: string, deviation: string, unit: "in" | "ft_lbf" | "cc" = "in"): Line => ({
  zero: { instrument, deviation, unit },
  wait: 0,
});

export const STRIP: readonly Line[] = [
  gauge("bore gauge", "dial bore gauge", "0.0001", "0.0002", ["bore_diameter"]),
  gauge("two inch micrometer", "outside micrometer", "0.0001", "0.0001", [
    "main_journal_diameter",
    "crankpin_diameter",
    "pin_diameter",
  ]),
  gauge("four inch micrometer", "outside micrometer", "0.0001", "0.0002", ["piston_skirt_diameter"]),
  gauge("feelers", "feeler gauges", "0.001", "0.0002", [
    "ring_end_gap",
    "ring_side_clearance",
    "rod_side_clearance",
    "valve_lash",
  ]),
  gauge("plastic strip", "plastic gauge", "0.0005", "0.0003", ["bearing_clearance"]),
  gauge("dial indicator", "dial indicator", "0.0005", "0.0005", ["crank_end_float", "deck_protrusion", "crank_runout_tir"]),
  gauge("beam wrench", "beam torque wrench", "1", "1.4", ["fastener_torque", "turning_torque"], "ft_lbf", {
    range: "100",
    calibrated: "2025-11-14",
    certificate: "invented 0417",
  }),
  gauge("burette", "burette", "0.2", "0.4", ["chamber_volume"], "cc"),
  zero("bore gauge", "0.0000"),
  zero("two inch micrometer", "0.0000"),
  zero("four inch micrometer", "0.0001"),
  zero("feelers", "0.0000"),
  zero("plastic strip", "0.0000"),
  zero("dial indicator", "0.0000"),
  zero("beam wrench", "0", "ft_lbf"),
  zero("burette", "0.0", "cc"),
  { step: "intake" },
  { clip: "c001", say: "compression one, forty-six pounds", wait: 4 },
  { clip: "c002", say: "compression two, fifty-one pounds" },
  { clip: "c003", say: "compression three, thirty-four pounds" },
  { clip: "c004", say: "compression four, forty-nine pounds" },
  { clip: "c005", say: "crank turns at nine foot pounds", wait: 3 },
  { close: "intake" },
  { step: "teardown", wait: 25 },
  { photos: "teardown" },
  { clip: "c006", say: "shim main one A side, ten thou", wait: 8 },
  { clip: "c007", say: "shim main one B side, ten thou" },
  { clip: "c008", say: "note, small nick on the cheek of number three", wait: 5 },
  { clip: "c009", say: "protrusion one, twelve thou", wait: 6 },
  { clip: "c010", say: "protrusion three, eleven thou" },
  { close: "teardown", wait: 40 },
];
