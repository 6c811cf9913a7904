// What an event of the right shape can still get wrong: units that measure something else, figures that are none, digits that
// say another value than stands beside them. Asked at the door of the log, and again of old logs when they are folded.
import { QUANTITIES } from "../quantities/registry.ts";
import { nonsenseIn } from "../spec/sense.ts";
import { sameDimension } from "../units/convert.ts";
import { UNITS, type UnitId } from "../units/units.ts";
import type { BenchEvent, EventType } from "./events.ts";
import type { Question, Reading } from "./reading.ts";

/** Stable codes of what makes no sense. */
export const MEANING_CODES = [
  "wrong_unit",
  "wrong_digits",
  "no_number",
  "no_time",
  "out_of_range",
  "too_deep",
  "no_sense",
] as const;
export type MeaningCode = (typeof MEANING_CODES)[number];

export interface Fault {
  readonly code: MeaningCode;
  /** What of the event it is: "the unit of bore_diameter". */
  readonly of: string;
  /** "Expected X for Y, got Z". */
  readonly say: string;
}

/** Highest number of a device's event: far beyond a device's life, and far below where whole numbers end (2^53). */
export const MAX_DEVICE_SEQ = 2 ** 40;
/** No figure of a bench comes near it; sums and powers of such figures are still numbers. */
const MOST = 1e9;
const MOST_DIGITS = 30;
/** Levels within a question's `about`, which holds places, quantities and lists of them. */
const MOST_LEVELS = 6;

const fault = (code: MeaningCode, want: string, of: string, got: unknown): Fault => ({
  code,
  of,
  say: `Expected ${want} for ${of}, got ${String(got).slice(0, 40)}`,
});

function ofDecimal(text: string, of: string, low: number): Fault | undefined {
  if (!/^[-+]?\d*\.?\d+$/.test(text) || text.length > MOST_DIGITS) return fault("no_number", "a decimal number", of, `"${text}"`);
  if (Number(text) < low || Math.abs(Number(text)) > MOST)
    return fault("out_of_range", `a number from ${low} to ${MOST}`, of, text);
  return undefined;
}

function ofFigure(figure: { value: number; unit: UnitId; digits: string }, like: UnitId, of: string): Fault | undefined {
  const { value, unit, digits } = figure;
  if (!sameDimension(unit, like)) return fault("wrong_unit", `a unit of ${UNITS[like].dimension}`, `the unit of ${of}`, unit);
  const wrong = ofDecimal(digits, `the digits of ${of}`, -MOST);
  if (wrong !== undefined) return wrong;
  return Number(digits) === value
    ? undefined
    : fault("wrong_digits", `${digits}, as its digits say,`, `the value of ${of}`, value);
}

function ofReading(reading: Reading): Fault | undefined {
  const { quantity, over } = reading;
  const wrong = ofFigure(reading, QUANTITIES[quantity].unit, quantity);
  if (wrong !== undefined || over === undefined) return wrong;
  const second = QUANTITIES[quantity].over;
  if (second === undefined) return fault("no_sense", "no second figure", quantity, over.digits);
  if (!(over.value > 0))
    return fault("out_of_range", "more than zero", `the ${second.label.toLowerCase()} of ${quantity}`, over.digits);
  return ofFigure(over, second.unit, `the ${second.label.toLowerCase()} of ${quantity}`);
}

/** Whether `value` holds itself within so many levels; never goes deeper than that. */
const isWithin = (value: unknown, levels: number): boolean =>
  value === null ||
  typeof value !== "object" ||
  (levels > 0 && Object.values(value).every((inner) => isWithin(inner, levels - 1)));

const ofQuestion = ({ about }: Question): Fault | undefined =>
  isWithin(about, MOST_LEVELS)
    ? undefined
    : fault("too_deep", `at most ${MOST_LEVELS} levels`, "what a question is about", "more");

function ofSheet(spec: Parameters<typeof nonsenseIn>[0]): Fault | undefined {
  const [first] = nonsenseIn(spec);
  return first === undefined
    ? undefined
    : { code: "no_sense", of: `the sheet's ${first.path.join(".")}`, say: `${first.path.join(".")}: ${first.say}` };
}

type Check<T extends EventType> = (data: Extract<BenchEvent, { type: T }>["data"]) => Fault | undefined;

const CHECKS: { readonly [T in EventType]?: Check<T> } = {
  "build.opened": ({ spec }) => ofSheet(spec),
  "spec.revised": ({ spec }) => ofSheet(spec),
  "reading.taken": ({ reading }) => ofReading(reading),
  "reading.corrected": ({ reading }) => ofReading(reading),
  "question.asked": ({ question }) => ofQuestion(question),
  "photo.taken": ({ photo }) =>
    Number.isNaN(Date.parse(photo.taken.at))
      ? fault("no_time", "a time", "when the photo was taken", `"${photo.taken.at}"`)
      : undefined,
  "instrument.kept": ({ resolution, uncertainty }) =>
    ofDecimal(resolution, "the resolution", 0) ?? ofDecimal(uncertainty, "the uncertainty", 0),
  "instrument.zeroed": ({ deviation }) => ofDecimal(deviation, "the deviation", -MOST),
};

/** The first thing of an event that makes no sense; undefined for a sound one. */
export function faultOf(event: BenchEvent): Fault | undefined {
  // Own rows only: a type called "toString" is none.
  const row = Object.hasOwn(CHECKS, event.type) ? CHECKS[event.type] : undefined;
  const check = row as ((data: BenchEvent["data"]) => Fault | undefined) | undefined;
  return check?.(event.data);
}

/** The same at the door of the log, where the device's count must leave room to go on counting. */
export function faultAtDoor(event: BenchEvent): Fault | undefined {
  if (event.deviceSeq > MAX_DEVICE_SEQ)
    return fault("out_of_range", `at most ${MAX_DEVICE_SEQ}`, "the device's own number of the event", event.deviceSeq);
  return faultOf(event);
}
