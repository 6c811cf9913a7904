// Numbers written in figures in general text: read only where they stand as a measure or a count, never in a code,
// a date, a time, an address, a price or a rate.
import { MONTHS, SUBJECT_UNITS } from "../vocabulary/generalUnits.ts";
import { generalUnitAt } from "./units.ts";
import type { GeneralWord } from "./words.ts";

/** Whether a word is written in figures. */
export function isFigure(word: GeneralWord | undefined): boolean {
  return word?.figure === true;
}

const isCapital = (word: GeneralWord | undefined): boolean => word !== undefined && /^[A-Z]/.test(word.raw);

/** The figure at i with its unit, or the word to go on at. */
export function figureAt(
  words: readonly GeneralWord[],
  i: number,
): { value: number; unit: string | undefined; from: number; to: number } | number {
  const word = words[i] as GeneralWord;
  const before = words[i - 1];
  const next = words[i + 1];
  const skip = i + 1;
  if (isCode(word, before, next) || isDate(word, before, next)) return skip;
  const unit = generalUnitAt(words, i + 1);
  // "2 in my car" and "2 in" cannot be told apart here, so the inch must close the phrase.
  if (next?.text === "in" && !next.pause) {
    const afterFeet = ["ft", "feet", "foot"].includes(before?.text === "and" ? (words[i - 2]?.text ?? "") : (before?.text ?? ""));
    return words[i + 2] === undefined || words[i + 2]?.pause || afterFeet
      ? { value: Number(word.text), unit: "in", from: i, to: i + 2 }
      : skip;
  }
  if (next !== undefined && SUBJECT_UNITS.has(next.text)) return skip;
  if (word.after === "°" || word.after === "%") return skip;
  if (unit !== undefined) return { value: Number(word.text), unit: unit.unit, from: i, to: unit.to };
  if (next?.hyphen || next?.text === "per" || next?.text === "over" || before?.text === "over" || next?.text === "below")
    return skip;
  if (isCapital(next) && next?.pause === false) return skip;
  return { value: Number(word.text), unit: undefined, from: i, to: i + 1 };
}

/** Joined to letters, to another figure by a mark, to a price sign, or a label ("no. 1", "PA 23456"). */
function isCode(word: GeneralWord, before: GeneralWord | undefined, next: GeneralWord | undefined): boolean {
  if (word.glued || next?.glued || word.mark === "$" || word.mark === "#" || word.mark === "°") return true;
  if (word.hyphen && before !== undefined && before.end >= word.start - 2) return true;
  if (word.mark === ":" || (next?.mark === ":" && isFigure(next))) return true;
  if (before?.text === "no" && word.mark === ".") return true;
  if (before !== undefined && /^[A-Z]{2,}$/.test(before.raw) && !word.pause) return true;
  return next !== undefined && !next.pause && /^[a-zA-Z]$/.test(next.raw) && next.text !== "a" && next.text !== "i";
}

/** A year after "in" or a month, a day after a month. */
function isDate(word: GeneralWord, before: GeneralWord | undefined, next: GeneralWord | undefined): boolean {
  if (before !== undefined && MONTHS.has(before.text) && isCapital(before)) return true;
  if (next !== undefined && MONTHS.has(next.text) && isCapital(next)) return true;
  return /^(?:19|20)\d\d$/.test(word.text) && generalYear(before);
}

const generalYear = (before: GeneralWord | undefined): boolean =>
  ["in", "for", "fiscal", "of", "since", "by", "from"].includes(before?.text ?? "");
