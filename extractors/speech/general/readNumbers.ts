// Plain numbers and measures out of general English. What needs a subject (pounds, bare degrees, tenths) is left alone.
import {
  AFTER_PRONOUN,
  BEFORE_PRONOUN,
  BENCH_DENOMINATORS,
  COMPOSITE,
  DENOMINATORS,
  RANKS,
  SUBJECT_UNITS,
  VAGUE,
} from "../vocabulary/generalUnits.ts";
import { MAX_TEXT } from "../words.ts";
import { cardinalAt, isNumberWord } from "./cardinal.ts";
import { figureAt, isFigure } from "./figures.ts";
import { generalFraction, type Piece } from "./fraction.ts";
import { generalUnitAt } from "./units.ts";
import { type GeneralWord, generalWords, NONE } from "./words.ts";

/** A number of general text with its unit, if one was said. */
export interface GeneralNumber {
  readonly value: number;
  readonly unit?: string;
  readonly span: readonly [number, number];
}

interface Found {
  readonly value: number;
  readonly unit: string | undefined;
  readonly from: number;
  readonly to: number;
}

/** Read every number of a sentence that means one thing; never throws. */
export function readNumbers(text: string): GeneralNumber[] {
  const words = generalWords(text.length > MAX_TEXT ? text.slice(0, MAX_TEXT) : text);
  const out: GeneralNumber[] = [];
  let i = 0;
  while (i < words.length) {
    const found = numberAt(words, i);
    if (found === undefined) {
      i++;
      continue;
    }
    if (typeof found === "number") {
      i = found;
      continue;
    }
    const [one, to] = composite(words, found);
    const span = [words[one.from]?.start ?? 0, words[to - 1]?.end ?? 0] as const;
    out.push(one.unit === undefined ? { value: one.value, span } : { ...inBenchUnit(one.value, one.unit), span });
    i = to;
  }
  return out;
}

function inBenchUnit(value: number, unit: string): { value: number; unit: string } {
  return unit === "thou" ? { value: Number((value / 1000).toPrecision(15)), unit: "in" } : { value, unit };
}

/** Words that may start a number though they are no number word: signs and fractions. */
const STARTS: ReadonlySet<string> = new Set(["minus", "negative", ...Object.keys(DENOMINATORS)]);

/** The number that starts at i; a word to go on at when words there are to be passed over; undefined when none starts. */
function numberAt(words: readonly GeneralWord[], i: number): Found | number | undefined {
  const word = words[i] as GeneralWord;
  if (word.figure) return figureAt(words, i);
  if (word.sense === NONE && !STARTS.has(word.text)) return undefined;
  const negative = word.text === "minus" || word.text === "negative" ? 1 : 0;
  const at = i + negative;
  if (isPronoun(words, at)) return at + 1;
  const read = valueAt(words, at);
  if (read === undefined) return articleUnit(words, i);
  const end = typeof read === "number" ? read : read.to;
  if (typeof read === "number" || VAGUE.has(words[i - 1]?.text ?? "") || spoiled(words, i, end)) return pastRun(words, end);
  const value = negative === 1 ? -read.value : read.value;
  const unit = unitAfter(words, end, read.fraction);
  if (SUBJECT_UNITS.has(words[end]?.text ?? "") && unit === undefined) return end + 1;
  return { value: value === 0 ? 0 : value, unit: unit?.unit, from: i, to: unit?.to ?? end };
}

/** A value at i: fraction, mixed number, ratio or plain; a word index when the words there make none. */
function valueAt(words: readonly GeneralWord[], i: number): (Piece & { fraction: boolean }) | number | undefined {
  const fraction = generalFraction(words, i);
  if (fraction !== undefined && !isNumberWord(words[fraction.to])) return { ...fraction, fraction: true };
  const whole = cardinalAt(words, i);
  if (whole === "broken") return pastRun(words, i);
  if (whole === undefined) return undefined;
  if (words[whole.to]?.sense.kind === "and") {
    const more = generalFraction(words, whole.to + 1);
    if (more !== undefined) return { value: whole.value + more.value, to: more.to, fraction: false };
  }
  if (words[whole.to]?.text === "out" && words[whole.to + 1]?.text === "of") {
    const below = cardinalAt(words, whole.to + 2);
    if (below !== undefined && below !== "broken" && below.value !== 0) {
      return { value: whole.value / below.value, to: below.to, fraction: true };
    }
  }
  if (/^doz(?:en|ens|s)?$/.test(words[whole.to]?.text ?? ""))
    return { value: whole.value * 12, to: whole.to + 1, fraction: false };
  return { ...whole, fraction: false };
}

/** First word past a run of number words. */
function pastRun(words: readonly GeneralWord[], i: number): number {
  let j = Math.max(i, 0);
  while (
    j < words.length &&
    (j === i || words[j]?.pause !== true) &&
    (words[j]?.sense.num !== undefined || words[j]?.sense.kind === "and" || isOrdinal(words[j]?.text ?? ""))
  )
    j++;
  return Math.max(j, i + 1);
}

const isOrdinal = (text: string): boolean =>
  RANKS.has(text) || Object.hasOwn(BENCH_DENOMINATORS, text) || Object.hasOwn(DENOMINATORS, text);

/** What follows or precedes takes the meaning away: a rank, a division, a rate, a bench unit, a freezing point. */
function spoiled(words: readonly GeneralWord[], i: number, end: number): boolean {
  const next = words[end];
  const before = words[i - 1]?.text ?? "";
  if (next?.text === "over" && words[end + 1] !== undefined && (isNumberWord(words[end + 1]) || isFigure(words[end + 1])))
    return true;
  if (before === "over" && (isNumberWord(words[i - 2]) || isFigure(words[i - 2]))) return true;
  if (next !== undefined && !next.pause && isOrdinal(next.text)) return true;
  if (next?.sense.kind === "and" && finerFollows(words, end + 1)) return true;
  if (next !== undefined && !next.pause && (next.text === "trillion" || next.text === "trillions")) return true;
  if (next?.text === "degrees" && words[end + 1]?.text === "below") return true;
  if (before === "below" && words[i]?.text === "zero") return true;
  return words[i]?.text === "second" || RANKS.has(before) || before.endsWith("tieth");
}

/** "and fifty-four hundredths": a bench denominator is a unit and is not added to what stands before it. */
function finerFollows(words: readonly GeneralWord[], i: number): boolean {
  const more = cardinalAt(words, i);
  return more !== undefined && more !== "broken" && Object.hasOwn(BENCH_DENOMINATORS, words[more.to]?.text ?? "");
}

/** "the one you mentioned", "one of the computers": no number, unless a unit follows. */
function isPronoun(words: readonly GeneralWord[], i: number): boolean {
  if (words[i]?.text !== "one") return false;
  const next = words[i + 1];
  if (next !== undefined && !next.pause && generalUnitAt(words, i + 1) !== undefined) return false;
  if (next !== undefined && !next.pause && AFTER_PRONOUN.has(next.text)) return true;
  return BEFORE_PRONOUN.has(words[i - 1]?.text ?? "") && words[i]?.pause === false && next?.sense.num === undefined;
}

/** "a liter", "an ml": one of it. */
function articleUnit(words: readonly GeneralWord[], i: number): Found | undefined {
  // "a tenth of a gallon": what stands before "of" was not read, so neither is this.
  if (words[i]?.sense.kind !== "article" || words[i - 1]?.text === "of") return undefined;
  const unit = generalUnitAt(words, i + 1);
  return unit && { value: 1, unit: unit.unit, from: i, to: unit.to };
}

/** The unit at i; after a fraction "of", "a" or both may come first ("half a liter", "fourth of liter"). */
function unitAfter(words: readonly GeneralWord[], i: number, fraction: boolean): { unit: string; to: number } | undefined {
  const direct = generalUnitAt(words, i);
  if (direct !== undefined || !fraction) return direct;
  let at = i;
  if (words[at]?.text === "of") at++;
  if (words[at]?.sense.kind === "article") at++;
  return at === i ? undefined : generalUnitAt(words, at);
}

/** "five feet two inches" as one length in inches, the bench's unit. */
function composite(words: readonly GeneralWord[], first: Found): [Found, number] {
  let total = first;
  let at = first.to;
  for (;;) {
    const rank = COMPOSITE.findIndex(([unit]) => unit === total.unit);
    if (rank < 0) return [total, at];
    const next = words[at]?.text === "and" ? at + 1 : at;
    const more = next < words.length ? numberAt(words, next) : undefined;
    if (more === undefined || typeof more === "number" || more.value < 0) return closed(first, total, at);
    const inner = COMPOSITE.findIndex(([unit]) => unit === more.unit);
    if (inner <= rank) return closed(first, total, at);
    let factor = 1;
    for (let k = rank; k < inner; k++) factor *= COMPOSITE[k]?.[1] ?? 1;
    total = { value: total.value * factor + more.value, unit: more.unit, from: total.from, to: more.to };
    at = more.to;
  }
}

function inInches(found: Found): Found {
  return found.unit === "ft" ? { ...found, value: found.value * 12, unit: "in" } : found;
}

/** A composite closed at its last part; a single length stays in its own unit. */
function closed(first: Found, total: Found, at: number): [Found, number] {
  return [at === first.to ? total : inInches(total), at];
}
