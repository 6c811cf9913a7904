// What a computation is: named inputs with their units, a formula with its source, and a pure function. One shape for all.
import type { Domain } from "./domain.ts";
import type { Measure } from "./measure.ts";
import { type ComputeDimension, type ComputeUnit, dimensionOf } from "./units.ts";

interface Common {
  readonly about: string;
  readonly optional?: boolean;
}
/** A number; given in any unit of the same dimension, it arrives in `unit`. `any` takes whatever unit the first such input has. */
export interface NumberInput extends Common {
  readonly kind: "number";
  readonly unit: ComputeUnit | "any";
  /** Where it must lie, in `unit`; anything when left out. */
  readonly domain?: Domain;
  /** It is a difference of two (an uncertainty, a step): no scale's zero is added when it is converted. */
  readonly difference?: true;
  /** A name rather than a reading (the 8 of M8): as many digits as it takes. Counts are exact anyway. */
  readonly exact?: true;
}
export interface ListInput extends Common {
  readonly kind: "list";
  readonly unit: ComputeUnit | "any";
  readonly domain?: Domain;
  readonly difference?: true;
  readonly exact?: true;
  /** How many values, at least and at most. */
  readonly count: readonly [number, number];
}
export interface TextInput extends Common {
  readonly kind: "text";
  readonly choices?: readonly string[];
}
export type Input = NumberInput | ListInput | TextInput;
export type Inputs = Readonly<Record<string, Input>>;

type Carried<I extends Input> = I extends { kind: "text" }
  ? string
  : I extends { kind: "list"; unit: infer U }
    ? readonly (U extends ComputeUnit ? Measure<U> : number)[]
    : I extends { kind: "number"; unit: infer U }
      ? U extends ComputeUnit
        ? Measure<U>
        : number
      : never;

/** The values a `run` receives: one a name, undefined only where the input is optional. */
export type Values<I extends Inputs> = {
  readonly [K in keyof I]: I[K] extends { optional: true } ? Carried<I[K]> | undefined : Carried<I[K]>;
};

/** A part with a unit of its own: printed in the asker's units, its unit beside it. */
export interface Measured {
  readonly value: number | readonly number[];
  readonly unit: ComputeUnit;
}
export type Part = number | string | boolean | readonly number[] | Measured;
/** Named parts of an answer: measured, or a plain number whose name says the unit. */
export type Parts = Readonly<Record<string, Part>>;

/** A part, or a list of them, in inches. */
export const inches = (value: number | readonly number[]): Measured => ({ value, unit: "in" });

/** An answer: one figure (with named parts beside it, if any), or named parts alone. */
export interface Answer {
  readonly value: number | Parts;
  readonly parts?: Parts;
  /** Set where the unit follows the inputs ("any", or a conversion's target). */
  readonly unit?: ComputeUnit;
  /** Standard uncertainty from rounding, in the answer's unit, where the inputs are read as text. */
  readonly rounding?: number;
}

/** How the values of the inputs of kind "any" were given. */
export interface Given {
  readonly anyUnit: ComputeUnit | undefined;
}

export interface Computation<I extends Inputs = Inputs> {
  readonly id: string;
  readonly title: string;
  readonly inputs: I;
  /** Unit of the answer; `any` when it is that of the inputs. */
  readonly unit: ComputeUnit | "any";
  readonly formula: string;
  /** A published source, or "common practice, no source". */
  readonly source: string;
  run(values: Values<I>, given: Given): Answer;
}

/** Declare a computation with its inputs' units known to the type checker; stored among others it forgets them. */
export function computation<const I extends Inputs>(row: Computation<I>): Computation {
  return row as unknown as Computation;
}

export type RefusalCode =
  | "unknown_input"
  | "missing_input"
  | "missing_unit"
  | "repeated_input"
  | "bad_pair"
  | "bad_number"
  | "bad_unit"
  | "bad_count"
  | "bad_choice"
  | "out_of_domain";

/** What was asked for cannot be worked out: a stable code and one sentence. */
export class Refusal extends RangeError {
  readonly code: RefusalCode;
  constructor(code: RefusalCode, say: string) {
    super(say);
    this.code = code;
  }
}

/** The unit that inputs of kind "any" came in. @throws RangeError for another dimension or when none was given */
export function anyOf(dimension: ComputeDimension, given: Given): ComputeUnit {
  const unit = given.anyUnit;
  if (unit === undefined) throw new Refusal("missing_unit", `Expected a unit of ${dimension}, got bare figures`);
  if (dimensionOf(unit) !== dimension) throw new RangeError(`Expected a unit of ${dimension}, got ${unit}`);
  return unit;
}

const limits = (domain: Domain | undefined): { readonly domain?: Domain } => (domain === undefined ? {} : { domain });
const number = <const U extends ComputeUnit | "any">(unit: U, about: string, domain?: Domain) =>
  ({ kind: "number", unit, about, ...limits(domain) }) as const;
const optional = <const U extends ComputeUnit | "any">(unit: U, about: string, domain?: Domain) =>
  ({ kind: "number", unit, about, optional: true, ...limits(domain) }) as const;
const list = <const U extends ComputeUnit | "any">(unit: U, about: string, least: number, most: number, domain?: Domain) =>
  ({ kind: "list", unit, about, count: [least, most], ...limits(domain) }) as const;
const text = (about: string, choices?: readonly string[]) =>
  ({ kind: "text", about, ...(choices === undefined ? {} : { choices }) }) as const;
const optionalText = (about: string, choices?: readonly string[]) =>
  ({ kind: "text", about, optional: true, ...(choices === undefined ? {} : { choices }) }) as const;

/** Builders for inputs. */
export const input = { number, optional, list, text, optionalText } as const;

export const COMMON_PRACTICE = "common practice, no source";
export const GEOMETRY = "geometry";
