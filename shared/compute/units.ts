// Units that computations speak besides the bench's: areas, rates and ratios. In comes a unit's spelling, out its row.
import Big from "big.js";
import { convert } from "../units/convert.ts";
import { type Dimension, isUnitId, UNITS, type UnitId } from "../units/units.ts";

export type ComputeDimension =
  | Dimension
  | "area"
  | "speed"
  | "rotation"
  | "ratio"
  | "pitch"
  | "stiffness"
  | "stress"
  | "expansion";

interface Row {
  readonly dimension: ComputeDimension;
  /** Exact decimal text: one of this unit is so many of its dimension's base unit. */
  readonly factor: string;
  readonly label: string;
}

/**
 * Sources: NIST SP 811 (2008), B.8; 1 kgf = 9.806 65 N exactly (B.8, "kilogram-force");
 * the torque base is N_m, the volume base cc and the length base mm, as in the bench's own table.
 */
const MORE = {
  thou: { dimension: "length", factor: "0.0254", label: "thou" },
  ft: { dimension: "length", factor: "304.8", label: "ft" },
  m: { dimension: "length", factor: "1000", label: "m" },
  kgf_m: { dimension: "torque", factor: "9.80665", label: "kgf·m" },
  bar: { dimension: "pressure", factor: "100", label: "bar" },
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
  rpm: { dimension: "rotation", factor: "1", label: "rev/min" },
  threads_per_in: { dimension: "pitch", factor: "1", label: "threads/in" },
  ratio: { dimension: "ratio", factor: "1", label: "" },
  percent: { dimension: "ratio", factor: "0.01", label: "%" },
  in_per_in: { dimension: "ratio", factor: "1", label: "in/in" },
  lbf_per_in: { dimension: "stiffness", factor: "1", label: "lbf/in" },
  kpsi: { dimension: "stress", factor: "1000", label: "kpsi" },
  lbf_per_in2: { dimension: "stress", factor: "1", label: "lbf/in²" },
  per_degC: { dimension: "expansion", factor: "1", label: "/°C" },
} as const satisfies Record<string, Row>;

export type ComputeUnit = UnitId | keyof typeof MORE;
export const COMPUTE_UNITS: readonly ComputeUnit[] = [
  ...(Object.keys(UNITS) as UnitId[]),
  ...(Object.keys(MORE) as (keyof typeof MORE)[]),
];

/** Other spellings a person types, all lower case; the unit's own id always works. */
const SPELLINGS: Readonly<Record<string, ComputeUnit>> = {
  '"': "in",
  inch: "in",
  inches: "in",
  micron: "um",
  µm: "um",
  μm: "um",
  "ft-lbf": "ft_lbf",
  "ft-lb": "ft_lbf",
  ftlb: "ft_lbf",
  lbft: "ft_lbf",
  "lbf-ft": "ft_lbf",
  "lb-ft": "ft_lbf",
  lb_ft: "ft_lbf",
  ft_lb: "ft_lbf",
  "ft.lbf": "ft_lbf",
  ft·lbf: "ft_lbf",
  "in-lbf": "in_lbf",
  "in-lb": "in_lbf",
  inlb: "in_lbf",
  "lbf-in": "in_lbf",
  "lb-in": "in_lbf",
  in_lb: "in_lbf",
  nm: "N_m",
  "n.m": "N_m",
  n·m: "N_m",
  "kgf.m": "kgf_m",
  "kgf-m": "kgf_m",
  cm3: "cc",
  ml: "cc",
  l: "L",
  c: "degC",
  "°c": "degC",
  f: "degF",
  "°f": "degF",
  "°": "deg",
  degrees: "deg",
  "in^2": "in2",
  sq_in: "in2",
  sqin: "in2",
  "cm^2": "cm2",
  "mm^2": "mm2",
  "in^3": "in3",
  cu_in: "in3",
  cuin: "in3",
  cid: "in3",
  "cm^3": "cc",
  "mm^3": "mm3",
  "in²": "in2",
  "cm²": "cm2",
  "mm²": "mm2",
  "in³": "in3",
  tpi: "threads_per_in",
  "in/min": "in_per_min",
  ipm: "in_per_min",
  "mm/min": "mm_per_min",
  "in/in": "in_per_in",
  "%": "percent",
  "rev/min": "rpm",
  "lbf/in": "lbf_per_in",
  "lb/in": "lbf_per_in",
  ksi: "kpsi",
  "lbf/in2": "lbf_per_in2",
  "/degc": "per_degC",
};

function row(unit: ComputeUnit): Row {
  return isUnitId(unit) ? UNITS[unit] : MORE[unit];
}

/** The unit that `text` spells, if any: an id, an id in other case, or a usual spelling. */
export function unitNamed(text: string): ComputeUnit | undefined {
  const exact = COMPUTE_UNITS.find((unit) => unit === text);
  if (exact !== undefined) return exact;
  const lower = text.toLowerCase();
  return SPELLINGS[lower] ?? COMPUTE_UNITS.find((unit) => unit.toLowerCase() === lower);
}

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
