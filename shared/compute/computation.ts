// What a computation is: named inputs with their units, a formula with its source, and a pure function. One shape for all.
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
}
export interface ListInput extends Common {
  readonly kind: "list";
  readonly unit: ComputeUnit | "any";
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

export type Part = number | string | boolean | readonly number[];
/** Named parts of an answer, each in the unit its name or the computation says. */
export type Parts = Readonly<Record<string, Part>>;

/** An answer: one figure (with named parts beside it, if any), or named parts alone. */
export interface Answer {
  readonly value: number | Parts;
  readonly parts?: Parts;
  /** Set where the unit follows the inputs ("any", or a conversion's target). */
  readonly unit?: string;
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

/** The unit that inputs of kind "any" came in, `usual` when none was given. @throws RangeError for another dimension */
export function anyOf(dimension: ComputeDimension, given: Given, usual: ComputeUnit): ComputeUnit {
  const unit = given.anyUnit ?? usual;
  if (dimensionOf(unit) !== dimension) throw new RangeError(`Expected a unit of ${dimension}, got ${unit}`);
  return unit;
}

const number = <const U extends ComputeUnit | "any">(unit: U, about: string) => ({ kind: "number", unit, about }) as const;
const optional = <const U extends ComputeUnit | "any">(unit: U, about: string) =>
  ({ kind: "number", unit, about, optional: true }) as const;
const list = <const U extends ComputeUnit | "any">(unit: U, about: string, least: number, most: number) =>
  ({ kind: "list", unit, about, count: [least, most] }) as const;
const text = (about: string, choices?: readonly string[]) =>
  ({ kind: "text", about, ...(choices === undefined ? {} : { choices }) }) as const;
const optionalText = (about: string, choices?: readonly string[]) =>
  ({ kind: "text", about, optional: true, ...(choices === undefined ? {} : { choices }) }) as const;

/** Builders for inputs. */
export const input = { number, optional, list, text, optionalText } as const;

export const COMMON_PRACTICE = "common practice, no source";
export const GEOMETRY = "geometry";
