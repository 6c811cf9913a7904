// One computation asked for in text (`bore=3.905in`): in come an id and name=value pairs, out an answer or a plain error.

import type { Answer, Computation, Given, Input, Parts } from "./computation.ts";
import { COMPUTATIONS } from "./registry.ts";
import { type ComputeUnit, convertMeasure, dimensionOf, unitNamed } from "./units.ts";

export type ComputeErrorCode =
  | "unknown_computation"
  | "unknown_input"
  | "missing_input"
  | "repeated_input"
  | "bad_pair"
  | "bad_number"
  | "bad_unit"
  | "bad_count"
  | "bad_choice"
  | "out_of_domain";

export interface ComputeError {
  readonly code: ComputeErrorCode;
  readonly say: string;
}

/** An answer as printed: inputs as they were given, the figure, its unit, its formula and where that comes from. */
export interface Computed {
  readonly id: string;
  readonly inputs: Readonly<Record<string, string>>;
  readonly value: number | Parts;
  readonly unit: string;
  readonly parts?: Parts;
  readonly formula: string;
  readonly source: string;
}

export type ComputeResult =
  | { readonly ok: true; readonly computed: Computed }
  | { readonly ok: false; readonly error: ComputeError };

/** Number, then a unit's spelling: `3.905in`, `.0035`, `-4.5e-3 mm`. The exponent is tried first, so `2e3` is a number. */
const MEASURE = /^([+-]?(?:\d+\.?\d*|\.\d+)(?:[eE][+-]?\d+)?)\s*(.*)$/;

class Refusal extends Error {
  readonly code: ComputeErrorCode;
  constructor(code: ComputeErrorCode, say: string) {
    super(say);
    this.code = code;
  }
}

/** The computation of that id, if there is one. */
export function computationNamed(id: string): Computation | undefined {
  return COMPUTATIONS.find((row) => row.id === id);
}

interface Taken {
  readonly value: number;
  readonly unit: ComputeUnit | undefined;
}

function takeMeasure(text: string, name: string, wanted: ComputeUnit | "any"): Taken {
  const match = MEASURE.exec(text.trim());
  if (match === null) throw new Refusal("bad_number", `Expected a number for ${name}, got "${text}"`);
  const value = Number(match[1]);
  if (!Number.isFinite(value)) throw new Refusal("bad_number", `Expected a finite number for ${name}, got "${text}"`);
  const spelled = match[2] ?? "";
  if (spelled === "") return { value, unit: undefined };
  const unit = unitNamed(spelled);
  if (unit === undefined) throw new Refusal("bad_unit", `Expected a known unit for ${name}, got "${spelled}"`);
  if (wanted === "any") return { value, unit };
  if (dimensionOf(unit) !== dimensionOf(wanted)) {
    throw new Refusal("bad_unit", `Expected a unit of ${dimensionOf(wanted)} (such as ${wanted}) for ${name}, got "${spelled}"`);
  }
  return { value: convertMeasure(value, unit, wanted), unit };
}

/** Reads one input's text; the inputs of kind "any" share the unit that the first of them was given in. */
function reader() {
  let anyUnit: ComputeUnit | undefined;
  const one = (text: string, name: string, unit: ComputeUnit | "any"): number => {
    const taken = takeMeasure(text, name, unit);
    if (unit !== "any" || taken.unit === undefined) return taken.value;
    anyUnit ??= taken.unit;
    if (dimensionOf(anyUnit) !== dimensionOf(taken.unit)) {
      throw new Refusal("bad_unit", `Expected a unit of ${dimensionOf(anyUnit)} for ${name}, got "${taken.unit}"`);
    }
    return convertMeasure(taken.value, taken.unit, anyUnit);
  };
  const read = (input: Input, name: string, text: string): number | readonly number[] | string => {
    if (input.kind === "number") return one(text, name, input.unit);
    if (input.kind === "text") {
      if (input.choices === undefined) return text;
      // "Cast iron", "cast-iron" and "cast_iron" are one word to a person.
      const choice = text
        .trim()
        .toLowerCase()
        .replaceAll(/[\s-]+/g, "_");
      if (!input.choices.includes(choice)) {
        throw new Refusal("bad_choice", `Expected one of ${input.choices.join(", ")} for ${name}, got "${text}"`);
      }
      return choice;
    }
    const [least, most] = input.count;
    const values = text.split(",").map((item) => one(item, name, input.unit));
    if (values.length < least || values.length > most) {
      const wanted = least === most ? `${least}` : `${least} to ${most}`;
      throw new Refusal("bad_count", `Expected ${wanted} values for ${name}, got ${values.length}`);
    }
    return values;
  };
  return { read, given: (): Given => ({ anyUnit }) };
}

function splitPairs(row: Computation, pairs: readonly string[]): Map<string, string> {
  const texts = new Map<string, string>();
  for (const pair of pairs) {
    const at = pair.indexOf("=");
    if (at < 1 || at === pair.length - 1) throw new Refusal("bad_pair", `Expected name=value, got "${pair}"`);
    const name = pair.slice(0, at);
    if (!Object.hasOwn(row.inputs, name)) {
      throw new Refusal(
        "unknown_input",
        `Expected one of ${Object.keys(row.inputs).join(", ")} for an input of ${row.id}, got "${name}"`,
      );
    }
    if (texts.has(name)) throw new Refusal("repeated_input", `Expected ${name} once, got it twice`);
    texts.set(name, pair.slice(at + 1));
  }
  return texts;
}

function answer(row: Computation, pairs: readonly string[]): Computed {
  const texts = splitPairs(row, pairs);
  const { read, given } = reader();
  const values: Record<string, number | readonly number[] | string> = {};
  for (const [name, input] of Object.entries(row.inputs)) {
    const text = texts.get(name);
    if (text !== undefined) values[name] = read(input, name, text);
    else if (input.optional !== true)
      throw new Refusal("missing_input", `Expected ${name} (${input.about}) for ${row.id}, got none`);
  }
  const result: Answer = row.run(values as never, given());
  return {
    id: row.id,
    inputs: Object.fromEntries(texts),
    value: result.value,
    unit: result.unit ?? (row.unit === "any" ? (given().anyUnit ?? "ratio") : row.unit),
    ...(result.parts === undefined ? {} : { parts: result.parts }),
    formula: row.formula,
    source: row.source,
  };
}

/**
 * Compute what `id` names from `name=value` pairs. A value without a unit has the input's own.
 * Never throws for what was asked: bad arguments come back as a code and a sentence.
 */
export function compute(id: string, pairs: readonly string[]): ComputeResult {
  const row = computationNamed(id);
  if (row === undefined) {
    return { ok: false, error: { code: "unknown_computation", say: `Expected a computation's id (see --list), got "${id}"` } };
  }
  try {
    const computed = answer(row, pairs);
    if (typeof computed.value === "number" && !Number.isFinite(computed.value)) {
      return {
        ok: false,
        error: { code: "out_of_domain", say: `Expected inputs with a finite answer for ${id}, got ${pairs.join(" ")}` },
      };
    }
    return { ok: true, computed };
  } catch (error) {
    if (error instanceof Refusal) return { ok: false, error: { code: error.code, say: error.message } };
    // The pure functions refuse what lies outside their formula with a RangeError; anything else is a fault of the program.
    if (error instanceof RangeError) return { ok: false, error: { code: "out_of_domain", say: error.message } };
    throw error;
  }
}
