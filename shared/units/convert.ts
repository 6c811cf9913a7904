// One value from one unit to another of the same dimension, in exact decimal where the factors are exact.
import Big from "big.js";
import { UNITS, type Unit, type UnitId } from "./units.ts";

/** Significant digits kept by a conversion; factors themselves are exact decimals. */
const DIGITS = 15;

/**
 * Convert `value` between units of one dimension.
 * @returns the value in `to`, rounded to 15 significant digits
 * @throws RangeError when the dimensions differ
 */
export function convert(value: number, from: UnitId, to: UnitId): number {
  if (from === to) return value;
  const a: Unit = UNITS[from];
  const b: Unit = UNITS[to];
  if (a.dimension !== b.dimension) {
    throw new RangeError(`Expected a unit of ${a.dimension} for ${from}, got ${to}`);
  }
  // Temperature scales are the only ones with an offset: affine arithmetic in double precision is ample for them.
  if (a.offset !== undefined || b.offset !== undefined) {
    const celsius = value * (a.offset === undefined ? 1 : 5 / 9) + (a.offset ?? 0);
    const out = b.offset === undefined ? celsius : (celsius - b.offset) * (9 / 5);
    return Number(out.toPrecision(12));
  }
  return Number(new Big(value).times(a.factor).div(b.factor).toPrecision(DIGITS));
}

/** Whether both units measure the same thing. */
export function sameDimension(a: UnitId, b: UnitId): boolean {
  return UNITS[a].dimension === UNITS[b].dimension;
}
