// The units a bench uses, as data: in comes a unit id, out come its dimension and its exact factor to the base unit.

/** What is being measured; units convert only within one dimension. */
export type Dimension =
  | "length"
  | "torque"
  | "pressure"
  | "force"
  | "mass"
  | "volume"
  | "temperature"
  | "angle"
  | "ratio"
  | "rotation"
  | "time"
  | "stiffness";

export interface Unit {
  readonly dimension: Dimension;
  /** Exact decimal text: one of this unit is so many of the dimension's base unit (mm, N_m, kPa, N, g, cc, deg, 1, rpm, s, N_per_mm). */
  readonly factor: string;
  /** Added after scaling, for temperature scales only: degC = degF * 5/9 - 160/9. */
  readonly offset?: number;
  /** As printed after a figure. */
  readonly label: string;
  /** As said aloud after one, and after any other number. */
  readonly said: readonly [string, string];
}

/**
 * Every unit of the parser's contract.
 * Source of factors: NIST Special Publication 811 (2008), Appendix B.8; 1 in = 25.4 mm exactly (B.6, footnote 4);
 * 1 lbf = 4.448 221 615 260 5 N exactly (product of the exact pound and standard gravity).
 */
export const UNITS = {
  in: { dimension: "length", factor: "25.4", label: "in", said: ["inch", "inches"] },
  mm: { dimension: "length", factor: "1", label: "mm", said: ["millimetre", "millimetres"] },
  um: { dimension: "length", factor: "0.001", label: "µm", said: ["micron", "microns"] },
  uin: { dimension: "length", factor: "0.0000254", label: "µin", said: ["microinch", "microinches"] },
  ft_lbf: { dimension: "torque", factor: "1.3558179483314004", label: "ft-lbf", said: ["foot pound", "foot pounds"] },
  in_lbf: { dimension: "torque", factor: "0.1129848290276167", label: "in-lbf", said: ["inch pound", "inch pounds"] },
  N_m: { dimension: "torque", factor: "1", label: "N·m", said: ["newton metre", "newton metres"] },
  psi: { dimension: "pressure", factor: "6.894757293168361", label: "psi", said: ["p s i", "p s i"] },
  kPa: { dimension: "pressure", factor: "1", label: "kPa", said: ["kilopascal", "kilopascals"] },
  lbf: { dimension: "force", factor: "4.4482216152605", label: "lbf", said: ["pound", "pounds"] },
  N: { dimension: "force", factor: "1", label: "N", said: ["newton", "newtons"] },
  g: { dimension: "mass", factor: "1", label: "g", said: ["gram", "grams"] },
  oz: { dimension: "mass", factor: "28.349523125", label: "oz", said: ["ounce", "ounces"] },
  cc: { dimension: "volume", factor: "1", label: "cc", said: ["c c", "c c"] },
  in3: { dimension: "volume", factor: "16.387064", label: "in³", said: ["cubic inch", "cubic inches"] },
  degC: { dimension: "temperature", factor: "1", label: "°C", said: ["degree Celsius", "degrees Celsius"] },
  degF: {
    dimension: "temperature",
    factor: "0.5555555555555556",
    offset: -160 / 9,
    label: "°F",
    said: ["degree Fahrenheit", "degrees Fahrenheit"],
  },
  deg: { dimension: "angle", factor: "1", label: "°", said: ["degree", "degrees"] },
  percent: { dimension: "ratio", factor: "0.01", label: "%", said: ["percent", "percent"] },
  rpm: { dimension: "rotation", factor: "1", label: "rev/min", said: ["r p m", "r p m"] },
  min: { dimension: "time", factor: "60", label: "min", said: ["minute", "minutes"] },
  lbf_per_in: {
    dimension: "stiffness",
    factor: "0.1751268352464764",
    label: "lbf/in",
    said: ["pound an inch", "pounds an inch"],
  },
  N_per_mm: { dimension: "stiffness", factor: "1", label: "N/mm", said: ["newton a millimetre", "newtons a millimetre"] },
} as const satisfies Record<string, Unit>;

export type UnitId = keyof typeof UNITS;
export const UNIT_IDS = Object.keys(UNITS) as UnitId[];

/** Whether `id` names a unit of the table. */
export function isUnitId(id: string): id is UnitId {
  return Object.hasOwn(UNITS, id);
}
