// One computation asked for in text (`bore=3.905in`): in come an id and name=value pairs, out an answer or a plain error.

import { type Answer, type Computation, type Measured, type Part, type Parts, Refusal, type RefusalCode } from "./computation.ts";
import { resultUncertainty, roundedTo } from "./known.ts";
import { type ReadInputs, readInputs } from "./read.ts";
import { COMPUTATIONS } from "./registry.ts";
import { type ComputeUnit, convertDifference, convertMeasure, metricOf, systemOf, unitLabel } from "./units.ts";

export interface ComputeError {
  readonly code: RefusalCode | "unknown_computation";
  readonly say: string;
}

type PlainPart = Exclude<Part, Measured>;
type PlainParts = Readonly<Record<string, PlainPart>>;

/** An answer as printed: inputs as they were given, the figure, its unit, its formula and where that comes from. */
export interface Computed {
  readonly id: string;
  readonly inputs: Readonly<Record<string, string>>;
  readonly value: number | PlainParts;
  readonly unit: string;
  /** The value to the place that the digits of the inputs carry, with its unit; where it is several figures, each that is a measure. */
  readonly rounded?: string | Readonly<Record<string, string>>;
  /** Standard uncertainty of the value, in its unit, where one was typed with any input. */
  readonly uncertainty?: number;
  readonly parts?: PlainParts;
  /** Unit of each part that has one of its own. */
  readonly units?: Readonly<Record<string, string>>;
  readonly formula: string;
  readonly source: string;
}

export type ComputeResult =
  | { readonly ok: true; readonly computed: Computed }
  | { readonly ok: false; readonly error: ComputeError };

/** The computation of that id, if there is one. */
export function computationNamed(id: string): Computation | undefined {
  return COMPUTATIONS.find((row) => row.id === id);
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

/** Unit to answer in: metric in is metric out, Fahrenheit in is Fahrenheit out; what was given in both systems is answered in the computation's own. */
function answeringUnit(units: readonly ComputeUnit[]): (unit: ComputeUnit) => ComputeUnit {
  const systems = new Set(units.map(systemOf));
  const metric = systems.has("metric") && !systems.has("inch");
  const fahrenheit = units.includes("degF") && !units.includes("degC");
  return (unit) => (unit === "degC" && fahrenheit ? "degF" : metric ? metricOf(unit) : unit);
}

/** Free of the tails that going to inches and back leaves: a nanometre in a metre is kept. */
const clean = (value: number): number => Number(Number(value.toFixed(9)).toPrecision(11));

const inUnit = (value: number, from: ComputeUnit, to: ComputeUnit): number =>
  from === to ? value : clean(convertMeasure(value, from, to));

/** Whether every figure in it is one. */
const isFinitePart = (part: unknown): boolean =>
  typeof part === "number"
    ? Number.isFinite(part)
    : typeof part !== "object" || part === null || Object.values(part).every(isFinitePart);

const isMeasured = (part: Part): part is Measured => typeof part === "object" && "unit" in part;

function plain(
  parts: Parts,
  target: (unit: ComputeUnit) => ComputeUnit,
): { readonly parts: PlainParts; readonly units: Record<string, string> } {
  const out: Record<string, PlainPart> = {};
  const units: Record<string, string> = {};
  for (const [name, part] of Object.entries(parts)) {
    if (!isMeasured(part)) {
      out[name] = part;
      continue;
    }
    const unit = target(part.unit);
    const one = (value: number): number => inUnit(value, part.unit, unit);
    out[name] = typeof part.value === "number" ? one(part.value) : part.value.map(one);
    units[name] = unit;
  }
  return { parts: out, units };
}

/** The figure rounded to what the inputs' digits carry, in the unit of the answer; nothing where all of them are exact. */
function rounded(row: Computation, read: ReadInputs, value: number, result: Answer, from?: ComputeUnit, to?: ComputeUnit) {
  const again = (values: ReadInputs["values"]): number => {
    const { value: other } = row.run(values as never, read);
    return typeof other === "number" ? other : Number.NaN;
  };
  const known = knownTo(result.rounding ?? resultUncertainty(again, read), from, to);
  if (known === undefined) return {};
  const said = { rounded: roundedIn(value, known, to) };
  return read.stated ? { ...said, uncertainty: Number(known.toPrecision(6)) } : said;
}

/** An uncertainty in the unit of the answer; undefined where there is none, or none that can be rounded to. */
function knownTo(uncertainty: number | undefined, from?: ComputeUnit, to?: ComputeUnit): number | undefined {
  if (uncertainty === undefined || !(uncertainty > 0) || !Number.isFinite(uncertainty)) return undefined;
  return from === undefined || to === undefined ? uncertainty : Math.abs(convertDifference(uncertainty, from, to));
}

const roundedIn = (value: number, known: number, to?: ComputeUnit): string =>
  `${roundedTo(value, known)} ${to === undefined ? "" : unitLabel(to)}`.trimEnd();

/** Each measure of an answer that is several figures, rounded as a single one is. */
function roundedParts(row: Computation, read: ReadInputs, parts: Parts, target: (unit: ComputeUnit) => ComputeUnit) {
  const told = Object.entries(parts).flatMap(([name, part]) => {
    if (!isMeasured(part) || typeof part.value !== "number") return [];
    const again = (values: ReadInputs["values"]): number => {
      const { value } = row.run(values as never, read);
      const other = typeof value === "number" ? undefined : value[name];
      return other !== undefined && isMeasured(other) && typeof other.value === "number" ? other.value : Number.NaN;
    };
    const to = target(part.unit);
    const known = knownTo(resultUncertainty(again, read), part.unit, to);
    return known === undefined ? [] : [[name, roundedIn(inUnit(part.value, part.unit, to), known, to)]];
  });
  return told.length === 0 ? {} : { rounded: Object.fromEntries(told) as Record<string, string> };
}

/** What of it is not empty: an answer without parts has none. */
const some = ({ parts, units }: ReturnType<typeof plain>) => ({
  ...(Object.keys(parts).length === 0 ? {} : { parts }),
  ...(Object.keys(units).length === 0 ? {} : { units }),
});

function answer(row: Computation, pairs: readonly string[]): Computed {
  const texts = splitPairs(row, pairs);
  const read = readInputs(row, texts);
  const result: Answer = row.run(read.values as never, read);
  if (![result.value, ...Object.values(result.parts ?? {})].every(isFinitePart)) {
    throw new RangeError(`Expected inputs with a finite answer for ${row.id}, got ${pairs.join(" ")}`);
  }
  const target = answeringUnit(read.units);
  const from = result.unit ?? (row.unit === "any" ? read.anyUnit : row.unit);
  // A unit that the answer chose for itself is the asker's already.
  const to = from === undefined || row.unit === "any" ? from : target(from);
  const common = { id: row.id, inputs: Object.fromEntries(texts) };
  const told = { formula: row.formula, source: row.source };
  const beside = plain(result.parts ?? {}, target);
  if (typeof result.value !== "number") {
    const { parts: value, units } = plain(result.value, target);
    return {
      ...common,
      value,
      unit: to ?? "ratio",
      ...roundedParts(row, read, result.value, target),
      ...some({ parts: beside.parts, units: { ...units, ...beside.units } }),
      ...told,
    };
  }
  const value = from === undefined || to === undefined ? result.value : inUnit(result.value, from, to);
  return { ...common, value, unit: to ?? "ratio", ...rounded(row, read, value, result, from, to), ...some(beside), ...told };
}

/**
 * Compute what `id` names from `name=value` pairs. A bare figure is taken only where its unit goes without saying (degrees,
 * counts, ratios, nothing at all). An input may carry its standard uncertainty: "bore=3.905in+-0.0002in".
 * Never throws for what was asked: bad arguments come back as a code and a sentence.
 */
export function compute(id: string, pairs: readonly string[]): ComputeResult {
  const row = computationNamed(id);
  if (row === undefined) {
    return { ok: false, error: { code: "unknown_computation", say: `Expected a computation's id (see --list), got "${id}"` } };
  }
  try {
    return { ok: true, computed: answer(row, pairs) };
  } catch (error) {
    if (error instanceof Refusal) return { ok: false, error: { code: error.code, say: error.message } };
    // The pure functions refuse what lies outside their formula with a RangeError; anything else is a fault of the program.
    if (error instanceof RangeError) return { ok: false, error: { code: "out_of_domain", say: error.message } };
    throw error;
  }
}
