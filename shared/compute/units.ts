// Units that computations speak besides the bench's: areas, rates and ratios. In comes a unit's spelling, out its row.
import Big from "big.js";
import { convert } from "../units/convert.ts";
import { type Dimension, isUnitId, UNITS, type UnitId } from "../units/units.ts";
import { SPELLINGS } from "./spellings.ts";

export type ComputeDimension = Dimension | "area" | "speed" | "pitch" | "expansion";

interface Row {
  readonly dimension: ComputeDimension;
  /** Exact decimal text: one of this unit is so many of its dimension's base unit. */
  readonly factor: string;
  readonly label: string;
}

/**
 * Sources: NIST SP 811 (2008), B.8; 1 kgf = 9.806 65 N exactly (B.8, "kilogram-force");
 * the torque base is N_m, the volume base cc and the length base mm, as in the bench's own table.
 * A tenth is a tenth of a thou, a hundredth one of a millimetre: the trade's words, each in its own system.
 */
const MORE = {
  thou: { dimension: "length", factor: "0.0254", label: "thou" },
  tenth: { dimension: "length", factor: "0.00254", label: "tenths" },
  hundredth: { dimension: "length", factor: "0.01", label: "hundredths of a mm" },
  cm: { dimension: "length", factor: "10", label: "cm" },
  ft: { dimension: "length", factor: "304.8", label: "ft" },
  m: { dimension: "length", factor: "1000", label: "m" },
  kgf_m: { dimension: "torque", factor: "9.80665", label: "kgf·m" },
  kgf_cm: { dimension: "torque", factor: "0.0980665", label: "kgf·cm" },
  bar: { dimension: "pressure", factor: "100", label: "bar" },
  MPa: { dimension: "pressure", factor: "1000", label: "MPa" },
  GPa: { dimension: "pressure", factor: "1000000", label: "GPa" },
  kgf_per_cm2: { dimension: "pressure", factor: "98.0665", label: "kgf/cm²" },
  lbf_per_in2: { dimension: "pressure", factor: "6.894757293168361", label: "lbf/in²" },
  kpsi: { dimension: "pressure", factor: "6894.757293168361", label: "kpsi" },
  Mpsi: { dimension: "pressure", factor: "6894757.293168361", label: "Mpsi" },
  kN: { dimension: "force", factor: "1000", label: "kN" },
  kgf: { dimension: "force", factor: "9.80665", label: "kgf" },
  lb: { dimension: "mass", factor: "453.59237", label: "lb" },
  kg: { dimension: "mass", factor: "1000", label: "kg" },
  mm3: { dimension: "volume", factor: "0.001", label: "mm³" },
  L: { dimension: "volume", factor: "1000", label: "L" },
  in2: { dimension: "area", factor: "645.16", label: "in²" },
  mm2: { dimension: "area", factor: "1", label: "mm²" },
  cm2: { dimension: "area", factor: "100", label: "cm²" },
  in_per_min: { dimension: "speed", factor: "25.4", label: "in/min" },
  mm_per_min: { dimension: "speed", factor: "1", label: "mm/min" },
  threads_per_in: { dimension: "pitch", factor: "1", label: "threads/in" },
  ratio: { dimension: "ratio", factor: "1", label: "" },
  in_per_in: { dimension: "ratio", factor: "1", label: "in/in" },
  s: { dimension: "time", factor: "1", label: "s" },
  h: { dimension: "time", factor: "3600", label: "h" },
  per_degC: { dimension: "expansion", factor: "1", label: "/°C" },
} as const satisfies Record<string, Row>;

export type ComputeUnit = UnitId | keyof typeof MORE;
export const COMPUTE_UNITS: readonly ComputeUnit[] = [
  ...(Object.keys(UNITS) as UnitId[]),
  ...(Object.keys(MORE) as (keyof typeof MORE)[]),
];

function row(unit: ComputeUnit): Row {
  return isUnitId(unit) ? UNITS[unit] : MORE[unit];
}

/** The unit that `text` spells, if any: an id, an id in other case, or a usual spelling. */
export function unitNamed(text: string): ComputeUnit | undefined {
  const exact = COMPUTE_UNITS.find((unit) => unit === text);
  if (exact !== undefined) return exact;
  const lower = text.toLowerCase();
  return SPELLINGS[lower] ?? ONE_CASE.find((unit) => unit.toLowerCase() === lower);
}
/** Units whose case may be left out: not those where another case is another size (mpa is no MPa). */
const ONE_CASE = COMPUTE_UNITS.filter((unit) => !/^[MG]P/.test(unit) && unit !== "Mpsi");

/** Units that only the inch shop uses, and the metric unit that answers in their place. Degrees, counts, cc and grams are in both. */
const TO_METRIC: Partial<Record<ComputeUnit, ComputeUnit>> = {
  in: "mm",
  thou: "mm",
  tenth: "mm",
  uin: "um",
  ft: "m",
  in2: "mm2",
  in3: "cc",
  ft_lbf: "N_m",
  in_lbf: "N_m",
  psi: "kPa",
  lbf_per_in2: "MPa",
  kpsi: "MPa",
  Mpsi: "GPa",
  lbf: "N",
  in_per_min: "mm_per_min",
  lbf_per_in: "N_per_mm",
  threads_per_in: "threads_per_in",
};
const IN_BOTH: readonly ComputeDimension[] = ["mass", "angle", "temperature", "rotation", "ratio", "time", "pitch", "expansion"];

/** Which system a unit gives away: `inch`, `metric`, or neither. */
export function systemOf(unit: ComputeUnit): "inch" | "metric" | undefined {
  if (TO_METRIC[unit] !== undefined) return "inch";
  return unit === "cc" || IN_BOTH.includes(row(unit).dimension) ? undefined : "metric";
}

/** The metric unit in the place of an inch one; the unit itself where it is in both systems. */
export const metricOf = (unit: ComputeUnit): ComputeUnit => TO_METRIC[unit] ?? unit;

/** Whether a bare figure could be either of two systems' units: lengths, torques, temperatures and the like, not angles or counts. */
export const needsUnit = (unit: ComputeUnit): boolean =>
  unit === "threads_per_in" ? false : !BARE.includes(row(unit).dimension);
const BARE: readonly ComputeDimension[] = ["angle", "rotation", "ratio", "pitch", "expansion"];

export function dimensionOf(unit: ComputeUnit): ComputeDimension {
  return row(unit).dimension;
}

/** As printed after a figure; empty for a plain ratio. */
export function unitLabel(unit: ComputeUnit): string {
  return row(unit).label;
}

/**
 * Convert between any two units of one dimension, exact decimal factors, 15 significant digits.
 * @throws RangeError when the dimensions differ
 */
export function convertMeasure(value: number, from: ComputeUnit, to: ComputeUnit): number {
  if (from === to) return value;
  if (isUnitId(from) && isUnitId(to)) return convert(value, from, to);
  const a = row(from);
  const b = row(to);
  if (a.dimension !== b.dimension) throw new RangeError(`Expected a unit of ${a.dimension} for ${from}, got ${to}`);
  return Number(new Big(value).times(a.factor).div(b.factor).toPrecision(15));
}

/** Convert a difference of two (an uncertainty, a step, a rise): as a measure, but no scale's zero is added. 0.5 degC is 0.9 degF. */
export function convertDifference(value: number, from: ComputeUnit, to: ComputeUnit): number {
  if (dimensionOf(from) !== "temperature" || dimensionOf(to) !== "temperature") return convertMeasure(value, from, to);
  return Number((convertMeasure(value, from, to) - convertMeasure(0, from, to)).toPrecision(12));
}
