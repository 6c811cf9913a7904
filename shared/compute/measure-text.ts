// A figure typed with its unit ("3.905in", "20swg"): in comes the text, out value, unit and the step of its last digit.
import { type ComputeUnit, unitNamed } from "./units.ts";
import { wireGauge } from "./wire-gauge.ts";

export interface TypedMeasure {
  readonly value: number;
  /** Undefined when the figure stands bare. */
  readonly unit: ComputeUnit | undefined;
  /** Step of the last digit that was typed: .001 for "5.629"; 0 for a gauge number, which is exact. */
  readonly step: number;
  /** Standard uncertainty where one was typed: "3.905in+-0.0002in". */
  readonly u?: { readonly value: number; readonly unit: ComputeUnit | undefined };
}

/** Number, then a unit's spelling: `3.905in`, `.0035`, `-4.5e-3 mm`. The exponent is tried first, so `2e3` is a number. */
const MEASURE = /^([+-]?(?:\d+\.?\d*|\.\d+)(?:[eE][+-]?\d+)?)\s*(.*)$/;

/** Step of the last digit of a decimal text: ".001" for "5.629", "1" for "40", ".0001" for "1.2e-3". */
export function lastDigitStep(decimal: string): number {
  const [mantissa = "", exponent = "0"] = decimal.toLowerCase().split("e");
  const places = (mantissa.split(".")[1] ?? "").length;
  return Number(`1e${Number(exponent) - places}`);
}

/** The measure that `text` spells; `number` or `unit` when that part cannot be read. @throws RangeError for a gauge number no table has */
export function typedMeasure(text: string): TypedMeasure | "number" | "unit" {
  const [measure = "", spread, ...more] = text.split(/\+-|±/);
  const main = oneMeasure(measure);
  if (spread === undefined || typeof main === "string") return main;
  const u = oneMeasure(spread);
  if (typeof u === "string") return u;
  if (more.length > 0 || u.value < 0) return "number";
  // "3.905+-.0002in": the unit behind stands for both.
  return { ...main, unit: main.unit ?? u.unit, u: { value: u.value, unit: u.unit ?? main.unit } };
}

function oneMeasure(text: string): TypedMeasure | "number" | "unit" {
  const [, digits, spelled] = MEASURE.exec(text.trim()) ?? [];
  const value = Number(digits);
  if (digits === undefined || spelled === undefined || !Number.isFinite(value)) return "number";
  if (spelled.toLowerCase() === "swg") return { value: wireGauge(value), unit: "in", step: 0 };
  const step = lastDigitStep(digits);
  if (spelled === "") return { value, unit: undefined, step };
  const unit = unitNamed(spelled);
  return unit === undefined ? "unit" : { value, unit, step };
}
