// Figures and limits as a person reads them: in come numbers with their unit, out comes text.
import { convertMeasure, metricOf, unitLabel } from "../compute/units.ts";
import { type Place, placeLabel } from "../places/places.ts";
import { type Sized, systemOf, type UnitSystem } from "../spec/sizes.ts";
import type { LimitUnit, Source } from "../spec/spec.ts";
import type { UnitId } from "../units/units.ts";

let system: UnitSystem = "inch";

/**
 * Do `work` so that every figure it writes is in the sheet's system. The work is synchronous, and what held before holds again after
 * it, whatever happens: the system is that of the sentence being written and of nothing else.
 */
export function saidFor<T>(sheet: Pick<Sized, "units">, work: () => T): T {
  const before = system;
  system = systemOf(sheet);
  try {
    return work();
  } finally {
    system = before;
  }
}

/** A value of the rules in the unit it is told in: itself, or its metric equal where the engine is metric. */
export function toldIn<U extends LimitUnit>(value: number, unit: U): readonly [value: number, unit: U | LimitUnit] {
  const to = system === "metric" ? (metricOf(unit) as LimitUnit) : unit;
  return to === unit ? [value, unit] : [Number(convertMeasure(value, unit, to).toPrecision(12)), to];
}

/** Decimals by unit: at least, and at most when the value needs them. */
const DECIMALS: Partial<Record<LimitUnit, readonly [number, number]>> = {
  in: [4, 5],
  in_per_in: [4, 5],
  mm: [3, 4],
  um: [0, 2],
  N: [0, 1],
  kPa: [0, 1],
  ft_lbf: [0, 1],
  in_lbf: [0, 1],
  N_m: [0, 1],
  cc: [1, 2],
  in3: [1, 3],
  ratio: [2, 3],
  percent: [0, 1],
  psi: [0, 1],
  degC: [0, 1],
  deg: [0, 1],
};

/** A number alone: 0.0012, 24, 4.679. */
export function number(given: number, of: LimitUnit): string {
  const [value, unit] = toldIn(given, of);
  const [least, most] = DECIMALS[unit] ?? [0, 3];
  const rounded = value.toFixed(most);
  const [whole, tail = ""] = rounded.split(".");
  const kept = tail.replace(/0+$/, "").padEnd(least, "0");
  return kept === "" ? `${whole}` : `${whole}.${kept}`;
}

function label(of: LimitUnit): string {
  if (of === "in_per_in") return system === "metric" ? "mm per mm" : "in per in";
  return unitLabel(toldIn(0, of)[1]);
}

/** What stands behind a length that was written as a number alone. */
export const lengthLabel = (): string => label("in");

/** An area given in square inches: `19.8 in²`, `127.7 cm²`. */
export const area = (squareInches: number): string =>
  system === "metric" ? `${convertMeasure(squareInches, "in2", "cm2").toFixed(1)} cm²` : `${squareInches} in²`;

/** A step of size as the trade writes it: `0.030` of an inch, `0.75` of a millimetre. */
export const sizeStep = (inches: number): string => toldIn(inches, "in")[0].toFixed(system === "metric" ? 2 : 3);

/** Inches, up to the next tenth of a thou or hundredth of a millimetre, so that what is taken off by it is surely enough. */
export function roundUp(inches: number): number {
  const [length, unit] = toldIn(inches, "in");
  const steps = unit === "mm" ? 100 : 1e4;
  return convertMeasure(Math.ceil(Number((length * steps).toFixed(6))) / steps, unit, "in");
}

/** A length as it was said, where that is the engine's own system; else worked over into it. */
export function lengthAsSaid({ digits, unit, value }: { digits: string; unit: UnitId; value: number }): string {
  const own = toldIn(0, "in")[1];
  return unit === own ? digits : number(convertMeasure(value, unit, "in"), "in");
}

/** A number with its unit: `0.0012 in`, `12 %`. */
export function figure(value: number, unit: LimitUnit): string {
  const name = label(unit);
  // Degrees of angle alone stand against their number (SI Brochure, 9th ed., 5.4.3).
  if (unit === "deg") return `${number(value, unit)}${name}`;
  return name === "" ? number(value, unit) : `${number(value, unit)} ${name}`;
}

export interface Bounds {
  readonly low?: number | undefined;
  readonly high?: number | undefined;
}

/** `0.0117 to 0.0176 in`, `0.0030 in at most`, `40.5 lbf at least`. */
export function bounds({ low, high }: Bounds, given: LimitUnit | "ratio_of_size"): string {
  // So much by the inch of a size, told as a bare number before that size.
  if (given === "ratio_of_size") return bare(low, high);
  const unit = given;
  if (low !== undefined && high !== undefined) return `${number(low, unit)} to ${figure(high, unit)}`;
  if (high !== undefined) return `${figure(high, unit)} at most`;
  if (low !== undefined) return `${figure(low, unit)} at least`;
  return "no bound";
}

function bare(low: number | undefined, high: number | undefined): string {
  const text = [low, high].flatMap((value) => (value === undefined ? [] : [number(value, "in_per_in")]));
  return text.join(" to ");
}

const KINDS: Record<Source["kind"], string> = {
  maker: "maker's manual",
  standard: "standard",
  common_practice: "common practice",
  shop: "shop's sheet",
};

/** `maker's manual: page 12`; a cite that already says its kind is not said twice. */
export function sourceText({ kind, cite }: Source): string {
  return cite.startsWith(KINDS[kind]) ? cite : `${KINDS[kind]}: ${cite}`;
}

/** ` at cylinder 2, top ring`; empty for the engine as a whole. */
export function at(place: Place): string {
  const text = placeLabel(place);
  return text === "" ? "" : ` at ${text}`;
}

/** First letter up. */
export function sentence(text: string): string {
  return text.charAt(0).toUpperCase() + text.slice(1);
}

/** `a`, `a and b`, `a, b and c`. */
export function list(items: readonly string[]): string {
  if (items.length < 2) return items.join("");
  return `${items.slice(0, -1).join(", ")} and ${items.at(-1)}`;
}
