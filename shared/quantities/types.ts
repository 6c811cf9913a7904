// What the registry says about a quantity.
import type { PlaceKey } from "../places/places.ts";
import type { StepId } from "../steps/steps.ts";
import type { UnitId } from "../units/units.ts";

/** Named sizes of an engine's spec sheet that bands and read-outs are placed by. */
export const NOMINAL_KEYS = [
  "bore",
  "stroke",
  "main_journal",
  "crankpin",
  "pin",
  "piston_skirt",
  "valve_stem",
  "lobe_lift",
  "valve_spring_length",
  "main_housing",
  "rod_housing",
] as const;
export type NominalKey = (typeof NOMINAL_KEYS)[number];

/** How a number said without its unit is to be scaled. */
export type Scale =
  | "thou" // "twelve" is .012 in (metric shop: hundredths of a millimetre are never assumed; mm must follow the digits)
  | "small_word" // thou or tenths must be said
  | "tenths_word" // tenths (or thou) must be said; a bare number is a question
  | "inch_digits" // a read-out, its decimal point placed by the nominal
  | "fraction" // a fraction of an inch, or thou
  | "plain"; // the number as it stands, in the default unit

/** Which signs a value may carry and which words give them. */
export type SignRule =
  | "never"
  | "fit" // loose, over, clearance +; tight, press, interference -
  | "deck" // proud, above +; down, low, below -
  | "oversize" // over +
  | "undersize" // under -
  | "deviation"; // plus, over, long +; minus, under, short -

/** Plausible band, in the default unit: absolute, or relative to a nominal of the spec sheet. */
export interface Band {
  readonly low: number;
  readonly high: number;
  readonly nominal?: NominalKey;
}

export interface Quantity {
  readonly id: QuantityId;
  /** As printed. */
  readonly label: string;
  /** As said back. */
  readonly said: string;
  /** Ways a machinist names it, most usual first; all lower case words, as the recogniser's dictionary has them. */
  readonly spoken: readonly string[];
  readonly unit: UnitId;
  /** Slots without which a reading of it means nothing. */
  readonly needs: readonly PlaceKey[];
  /** When set, any one of these slots is needed besides `needs`. */
  readonly needsOneOf?: readonly PlaceKey[];
  /** Slots that may be given. */
  readonly may: readonly PlaceKey[];
  /** Slot that a spoken list runs along ("twelve, fourteen, twelve"). */
  readonly listAlong?: PlaceKey;
  readonly band: Band;
  /** Step of the usual instrument, in the default unit: fewer digits than this is a question for a read-out. */
  readonly resolution: number;
  readonly scale: Scale;
  readonly sign: SignRule;
  /** Steps in which it is usually measured, first one first. */
  readonly steps: readonly StepId[];
  /** Second figure spoken with "at" or "in": a spring's length, a mandrel's length. */
  readonly over?: {
    readonly label: string;
    readonly unit: UnitId;
    readonly low: number;
    readonly high: number;
    readonly required: boolean;
  };
  /** Every reading of it waits for a yes. */
  readonly alwaysConfirm?: boolean;
}

export const QUANTITY_IDS = [
  "bore_diameter",
  "ring_ridge",
  "score_depth",
  "bore_oversize",
  "piston_oversize",
  "journal_undersize",
  "stroke",
  "main_journal_diameter",
  "crankpin_diameter",
  "journal_out_of_round",
  "journal_taper",
  "crank_runout_tir",
  "flywheel_runout",
  "bearing_clearance",
  "bearing_crush",
  "bearing_spread",
  "main_housing_bore",
  "rod_housing_bore",
  "roller_clearance",
  "shim_thickness",
  "crank_end_float",
  "cam_end_float",
  "rod_side_clearance",
  "rod_bend",
  "rod_twist",
  "rod_length_dev",
  "mass",
  "pin_diameter",
  "bush_id",
  "boss_id",
  "pin_fit_bush",
  "pin_fit_boss",
  "piston_skirt_diameter",
  "piston_clearance",
  "ring_end_gap",
  "ring_side_clearance",
  "ring_gap_clock",
  "deck_protrusion",
  "gasket_thickness",
  "gasket_crush",
  "head_recess",
  "piston_to_head",
  "chamber_volume",
  "flatness",
  "fastener_torque",
  "castle_nut_angle",
  "turning_torque",
  "valve_lash",
  "valve_stem_diameter",
  "guide_id",
  "valve_guide_clearance",
  "valve_seat_width",
  "valve_spring_force",
  "valve_spring_length",
  "valve_spring_rate",
  "lobe_lift",
  "gear_backlash",
  "cam_runout",
  "piston_to_valve",
  "coil_clearance",
  "points_gap",
  "dwell_angle",
  "dipper_depth",
  "trough_level",
  "oil_pump_end_clearance",
  "oil_pump_tip_clearance",
  "oil_pump_body_clearance",
  "oil_pressure",
  "compression_pressure",
  "leak_down",
  "jacket_pressure",
  "jacket_drop",
  "run_in_time",
  "run_in_speed",
  "run_in_load",
  "run_in_temperature",
  "part_temperature",
  "surface_ra",
  "crack_indication",
] as const;
export type QuantityId = (typeof QUANTITY_IDS)[number];
