// Numbers that carry their unit in their type, and decimal-clean arithmetic on them. One constructor a unit, no cost at run time.
import Big from "big.js";
import type { ComputeUnit } from "./units.ts";

declare const UNIT: unique symbol;

/** A number of unit `U`. Two units never mix by accident: an `Inch` is no `Millimetre`. */
export type Measure<U extends ComputeUnit> = number & { readonly [UNIT]: U };

export type Inch = Measure<"in">;
export type Millimetre = Measure<"mm">;
export type Micrometre = Measure<"um">;
export type SquareInch = Measure<"in2">;
export type CubicInch = Measure<"in3">;
export type CubicCentimetre = Measure<"cc">;
export type FootPound = Measure<"ft_lbf">;
export type InchPound = Measure<"in_lbf">;
export type PoundForce = Measure<"lbf">;
export type Psi = Measure<"psi">;
export type Celsius = Measure<"degC">;
export type Degree = Measure<"deg">;
export type Ratio = Measure<"ratio">;
export type InchPerInch = Measure<"in_per_in">;

/** A constructor for one unit's numbers. */
const unit =
  <U extends ComputeUnit>(_unit: U) =>
  (value: number): Measure<U> =>
    value as Measure<U>;

export const inch = unit("in");
export const millimetre = unit("mm");
export const micrometre = unit("um");
export const squareInch = unit("in2");
export const cubicInch = unit("in3");
export const cc = unit("cc");
export const footPound = unit("ft_lbf");
export const inchPound = unit("in_lbf");
export const poundForce = unit("lbf");
export const psi = unit("psi");
export const celsius = unit("degC");
export const degree = unit("deg");
export const ratio = unit("ratio");
export const percent = unit("percent");
export const inchPerInch = unit("in_per_in");
export const threadsPerInch = unit("threads_per_in");
export const rpm = unit("rpm");
export const inchPerMinute = unit("in_per_min");
export const lbfPerInch = unit("lbf_per_in");
export const lbfPerSquareInch = unit("lbf_per_in2");

/** Twelve significant digits: far below any gauge, and free of binary tails such as 0.0043999999999. */
export function tidy<T extends number>(value: T): T {
  return Number(value.toPrecision(12)) as T;
}

/** a - b in exact decimal: 3.9050 - 3.9012 is 0.0038. */
export function minus<T extends number>(a: T, b: T): T {
  return new Big(a).minus(b).toNumber() as T;
}

/** The sum in exact decimal. */
export function plus<T extends number>(first: T, ...rest: readonly T[]): T {
  return rest.reduce((sum, value) => sum.plus(value), new Big(first)).toNumber() as T;
}

/** The product in exact decimal, to 15 significant digits. */
export function times<T extends number>(a: T, b: number): T {
  return Number(new Big(a).times(b).toPrecision(15)) as T;
}

export function largest<T extends number>(values: readonly T[]): T {
  return Math.max(...values) as T;
}

export function smallest<T extends number>(values: readonly T[]): T {
  return Math.min(...values) as T;
}

/** Largest less smallest, exact. @throws RangeError on an empty list */
export function range<T extends number>(values: readonly T[]): T {
  if (values.length === 0) throw new RangeError("Expected at least one value for a range, got none");
  return minus(largest(values), smallest(values));
}
