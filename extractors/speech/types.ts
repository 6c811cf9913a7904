// The parser's inner types: words, senses, tokens, number atoms and value expressions.

import type { Place, PlaceKey } from "../../shared/places/places.ts";
import type { Condition } from "../../shared/spec/spec.ts";
import type { UnitId } from "../../shared/units/units.ts";

/** One word or figure of the text, lower case, with its place in the text. */
export interface Word {
  readonly text: string;
  readonly start: number;
  readonly end: number;
  /** Punctuation or a line break stands before it: the speaker, or the writer, paused. */
  readonly pause: boolean;
}

/** A piece of a number as spoken. */
export type Atom =
  | { readonly t: "digit"; readonly v: number }
  | { readonly t: "teen"; readonly v: number }
  | { readonly t: "ten"; readonly v: number }
  | { readonly t: "hundred" }
  | { readonly t: "thousand" }
  | { readonly t: "point" }
  | { readonly t: "half" }
  | { readonly t: "quarter" }
  /** A denominator said by its name: "eighths". */
  | { readonly t: "den"; readonly v: number }
  /** "double" and "triple". */
  | { readonly t: "repeat"; readonly v: number }
  /** Figures as written: "38841", "0.012". */
  | { readonly t: "figures"; readonly v: string }
  /** A written fraction: "3/32". */
  | { readonly t: "ratio"; readonly n: number; readonly d: number };

/** How a unit word is to be taken; the contract's units plus those whose meaning waits for the quantity or the shop. */
export type UnitWord =
  | UnitId
  | "thou"
  | "tenth"
  | "hundredth"
  | "thousandth"
  | "tenthou"
  | "hundredthou"
  | "pound"
  | "kilo"
  | "degree"
  | "mil"
  | "flat"
  | "cm"
  | "kg"
  | "bar"
  | "inoz";

/** Nouns that a number after them places: "cylinder two", "main three". */
export type Noun =
  | "cylinder"
  | "number"
  | "main"
  | "rod"
  | "crankpin"
  | "pin"
  | "journal"
  | "piston"
  | "nut"
  | "stage"
  | "ring"
  | "head";

export type SlotOption = readonly [PlaceKey, string | number];

export type SignWord = "plus" | "minus" | "over" | "under" | "tight" | "loose" | "high" | "low" | "long" | "short" | "even";

export type WordKind =
  | "filler"
  | "article"
  | "and"
  | "prep" // a preposition that often stands before a place: on, at, for, in
  | "talk" // speech that is not for the book
  | "approx"
  | "hedge"
  | "bound"
  | "between"
  | "or"
  | "neg"
  | "not"
  | "toward"; // "to" between two figures makes a range

/** What a word or phrase can mean; a word may mean several things at once and the readers choose. */
export interface Sense {
  num?: Atom;
  unit?: UnitWord;
  /** Word of a quantity's name. */
  feat?: string;
  noun?: Noun;
  slots?: readonly SlotOption[];
  sign?: SignWord;
  kind?: WordKind;
  part?: string;
  condition?: Condition;
  /** Which one of several: "front main" is the first main. */
  ordinal?: "first" | "middle" | "last";
  /** "first", "second", "third": counts the noun after it. */
  count?: number;
  /** Every place of a slot: "all four", "both". */
  all?: "all" | "both";
  /** Singular form of a unit: "tenth" after "ten thousand..." is one ten-thousandth. */
  singular?: boolean;
  /** What it was heard as instead. */
  repaired?: boolean;
}

export interface Token extends Word {
  readonly sense: Sense;
  /** Not in any vocabulary. */
  readonly unknown: boolean;
}

/** An exact decimal: n / 10^s. */
export interface Dec {
  readonly n: number;
  readonly s: number;
}

/** How a figure was said; it decides how it may be scaled. */
export type FigureKind = "int" | "digits" | "decimal" | "mixed" | "fraction";

/** A number as said, without its unit. */
export interface Figure {
  readonly kind: FigureKind;
  readonly dec: Dec;
  /** Digits in the order they were said, without the point: "0015", "38841". */
  readonly text: string;
  /** Said in a way that can mean two numbers ("one half tenths"). */
  readonly doubtful?: boolean;
}

export interface ValuePart {
  readonly figure: Figure;
  readonly unit: UnitWord | undefined;
}

/** A value as said: one part, or a sum of parts ("two thou and seven tenths"). */
export interface ValueExpr {
  readonly parts: readonly ValuePart[];
  /** First token, and one past the last. */
  readonly from: number;
  readonly to: number;
  readonly repairs: number;
  /** Stable codes of what was odd in the way it was said. */
  readonly flags: readonly string[];
}

export type MutablePlace = Place;
