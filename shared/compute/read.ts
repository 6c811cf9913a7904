// The inputs of one computation as they were typed: in come name=value texts, out values in the units the computation wants.
import { type Computation, type Input, type ListInput, type NumberInput, Refusal } from "./computation.ts";
import { resolutionUncertainty } from "./conformance.ts";
import { checkDomain } from "./domain.ts";
import { type TypedMeasure, typedMeasure } from "./measure-text.ts";
import { type ComputeUnit, convertDifference, convertMeasure, dimensionOf, needsUnit } from "./units.ts";

export type Value = number | readonly number[] | string;

export interface ReadInputs {
  readonly values: Readonly<Record<string, Value>>;
  /** Standard uncertainty of each number, in the unit of its value: the one that was typed, else that of rounding to its last digit. */
  readonly uncertainties: Readonly<Record<string, readonly number[]>>;
  /** Every unit that was typed. */
  readonly units: readonly ComputeUnit[];
  /** The unit that inputs of kind "any" are in. */
  readonly anyUnit: ComputeUnit | undefined;
  /** Whether any uncertainty was typed. */
  readonly stated: boolean;
}

interface Numbers {
  readonly values: readonly number[];
  readonly uncertainties: readonly number[];
}

const rounding = (step: number): number => resolutionUncertainty(Math.abs(step));

/** No bench reads a figure beyond this, or one below its inverse: formulas would leave the range of numbers. */
const LARGEST = 1e15;

/** A dial set to a plain "0" is set to nothing, not to the nearest whole inch. */
const stepOf = ({ value, step }: TypedMeasure): number => (value === 0 && step === 1 ? 0 : step);

function typed(text: string, name: string): TypedMeasure {
  const found = typedMeasure(text);
  if (found === "number") throw new Refusal("bad_number", `Expected a finite number for ${name}, got "${text}"`);
  if (found !== "unit" && found.value !== 0 && !(Math.abs(found.value) < LARGEST && Math.abs(found.value) > 1 / LARGEST)) {
    throw new RangeError(`Expected a figure that something could measure for ${name}, got "${text}"`);
  }
  if (found === "unit") throw new Refusal("bad_unit", `Expected a number and a known unit for ${name}, got "${text}"`);
  return found;
}

/** A unit behind the last of a list is that of the whole list, where none of the others has one: "12,14,13thou". */
function listed(text: string, name: string): TypedMeasure[] {
  const items = text.split(",").map((item) => typed(item, name));
  const unit = items.at(-1)?.unit;
  return items.slice(0, -1).every((item) => item.unit === undefined) ? items.map((item) => ({ ...item, unit })) : items;
}

/** Nothing is nothing in every unit but a temperature's. */
const bareZero = ({ value, unit }: TypedMeasure, wanted: ComputeUnit): boolean =>
  unit === undefined && value === 0 && dimensionOf(wanted) !== "temperature";

function converted(item: TypedMeasure, name: string, input: NumberInput | ListInput, wanted: ComputeUnit): [number, number] {
  const { value, unit, u } = item;
  const step = stepOf(item);
  if (unit === undefined) {
    if (needsUnit(wanted) && !bareZero(item, wanted)) {
      throw new Refusal(
        "missing_unit",
        `Expected a unit of ${dimensionOf(wanted)} (such as ${wanted}) for ${name}, got ${value} alone`,
      );
    }
    return [value, u?.value ?? rounding(step)];
  }
  const strange = [unit, u?.unit ?? unit].find((other) => dimensionOf(other) !== dimensionOf(wanted));
  if (strange !== undefined) {
    throw new Refusal("bad_unit", `Expected a unit of ${dimensionOf(wanted)} (such as ${wanted}) for ${name}, got "${strange}"`);
  }
  const convert = input.difference === true ? convertDifference : convertMeasure;
  const known =
    u === undefined ? rounding(convertDifference(step, unit, wanted)) : convertDifference(u.value, u.unit ?? unit, wanted);
  return [convert(value, unit, wanted), known];
}

function inUnit(
  items: readonly TypedMeasure[],
  name: string,
  input: NumberInput | ListInput,
  wanted: ComputeUnit | "any",
): Numbers {
  const { domain } = input;
  const pairs = items.map((item): [number, number] => {
    const pair: [number, number] =
      wanted === "any" ? [item.value, item.u?.value ?? rounding(stepOf(item))] : converted(item, name, input, wanted);
    if (domain !== undefined) checkDomain(pair[0], domain, name, wanted);
    return domain?.whole === true || input.exact === true ? [pair[0], 0] : pair;
  });
  return { values: pairs.map(([value]) => value), uncertainties: pairs.map(([, u]) => u) };
}

function chosen(text: string, name: string, choices: readonly string[]): string {
  // "Cast iron", "cast-iron" and "cast_iron" are one word to a person.
  const choice = text
    .trim()
    .toLowerCase()
    .replaceAll(/[\s-]+/g, "_");
  if (choices.includes(choice)) return choice;
  throw new Refusal("bad_choice", `Expected one of ${choices.join(", ")} for ${name}, got "${text}"`);
}

function counted(input: ListInput, name: string, length: number): void {
  const [least, most] = input.count;
  if (length >= least && length <= most) return;
  throw new Refusal("bad_count", `Expected ${least === most ? least : `${least} to ${most}`} values for ${name}, got ${length}`);
}

const isNumeric = (input: Input): input is NumberInput | ListInput => input.kind !== "text";

/** @throws Refusal for the first input that cannot be used; RangeError for one outside its domain */
export function readInputs(row: Computation, texts: ReadonlyMap<string, string>): ReadInputs {
  const values: Record<string, Value> = {};
  const numbers = new Map<string, { readonly input: NumberInput | ListInput; readonly items: readonly TypedMeasure[] }>();
  for (const [name, input] of Object.entries(row.inputs)) {
    const text = texts.get(name);
    if (text === undefined) {
      if (input.optional === true) continue;
      throw new Refusal("missing_input", `Expected ${name} (${input.about}) for ${row.id}, got none`);
    }
    if (isNumeric(input)) {
      const items = input.kind === "list" ? listed(text, name) : [typed(text, name)];
      if (input.kind === "list") counted(input, name, items.length);
      numbers.set(name, { input, items });
    } else values[name] = input.choices === undefined ? text : chosen(text, name, input.choices);
  }
  const all = [...numbers.values()];
  const anyUnit = all
    .flatMap(({ input, items }) => (input.unit === "any" ? items : []))
    .find(({ unit }) => unit !== undefined)?.unit;
  const uncertainties: Record<string, readonly number[]> = {};
  for (const [name, { input, items }] of numbers) {
    const read = inUnit(items, name, input, input.unit === "any" ? (anyUnit ?? "any") : input.unit);
    values[name] = input.kind === "list" ? read.values : (read.values[0] ?? Number.NaN);
    uncertainties[name] = read.uncertainties;
  }
  const items = all.flatMap((one) => one.items);
  return {
    values,
    uncertainties,
    anyUnit,
    units: items.flatMap(({ unit }) => unit ?? []),
    stated: items.some(({ u }) => u !== undefined),
  };
}
