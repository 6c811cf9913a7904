// Where a number must lie for a formula to mean anything: bounds as data, one check, one sentence.
import { type ComputeUnit, unitLabel } from "./units.ts";

export interface Domain {
  /** Greater than this; not equal to it. */
  readonly above?: number;
  readonly least?: number;
  /** Smaller than this; not equal to it. */
  readonly below?: number;
  readonly most?: number;
  /** A count: exact, whatever its digits. */
  readonly whole?: true;
}

export const ABOVE_ZERO: Domain = { above: 0 };
export const NOT_NEGATIVE: Domain = { least: 0 };
export const COUNT: Domain = { least: 1, whole: true };
/** Temperatures, degC: nothing is colder than absolute zero. */
export const TEMPERATURE: Domain = { least: -273.15 };
/** An angle up to a straight line, degrees. */
export const HALF_TURN: Domain = { least: 0, most: 180 };
/** One turn of the crank, degrees. */
export const ONE_TURN: Domain = { least: 0, most: 360 };
/** Degrees before or after a dead centre; below zero on its other side. */
export const FROM_DEAD_CENTRE: Domain = { above: -180, below: 180 };

const wanted = ({ above, least, below, most, whole }: Domain, label: string): string =>
  [
    ...(whole === true ? ["a whole number"] : []),
    ...(above === undefined ? [] : [`above ${above}${label}`]),
    ...(least === undefined ? [] : [`of at least ${least}${label}`]),
    ...(below === undefined ? [] : [`below ${below}${label}`]),
    ...(most === undefined ? [] : [`of at most ${most}${label}`]),
  ].join(" and ");

/** @throws RangeError when `value` (in `unit`) lies outside `domain` */
export function checkDomain(value: number, domain: Domain, name: string, unit: ComputeUnit | "any"): void {
  const { above, least, below, most, whole } = domain;
  const inside =
    (above === undefined || value > above) &&
    (least === undefined || value >= least) &&
    (below === undefined || value < below) &&
    (most === undefined || value <= most) &&
    (whole !== true || Number.isInteger(value));
  if (inside) return;
  const label = unit === "any" ? "" : ` ${unitLabel(unit)}`.trimEnd();
  throw new RangeError(`Expected ${name} ${wanted(domain, label)}, got ${value}${label}`);
}
