// The parser's vocabulary tables in, the phrases of them that can be said and heard apart out: no word stands in two rooms.
import { type PlaceKey, valuesOf } from "../../../shared/places/places.ts";
import { slotRow } from "../../../shared/places/slots.ts";
import { ALL_QUANTITIES } from "../../../shared/quantities/registry.ts";
import type { Engine } from "../../../shared/spec/spec.ts";
import { BY_NOUN } from "../../speech/measure/place.ts";
import type { Noun, SignWord, UnitWord } from "../../speech/types.ts";
import { canonical, FORMS, NAME_WORDS } from "../../speech/vocabulary/names.ts";
import { NOUN_WORDS, ORDINAL_COUNTS, PART_WORDS, SLOT_WORDS } from "../../speech/vocabulary/places.ts";
import { SIGN_WORDS } from "../../speech/vocabulary/signs.ts";
import { UNIT_WORDS } from "../../speech/vocabulary/units.ts";
import { isSayable, saidAs } from "../words/dictionary.ts";
import { type Phrase, weighted, words } from "./automaton.ts";

/** Another way to say what is mostly said otherwise. */
export const OTHERWISE = 0.2;

/** Those of `phrases` that have a pronunciation, and of those that sound alike ("centre", "center") the first. */
export function saidApart(phrases: Iterable<string>): readonly string[] {
  const bySound = new Map<string, string>();
  for (const phrase of phrases) {
    if (!isSayable(phrase)) continue;
    const sound = saidAs(phrase)[0]?.join(" ") ?? "";
    if (!bySound.has(sound)) bySound.set(sound, phrase);
  }
  return [...bySound.values()];
}

/** A choice of phrases; those that `isUsual` are as usual as each other, the rest less so. */
export const choiceOf = (phrases: readonly string[], isUsual: (phrase: string, index: number) => boolean): Phrase =>
  weighted(...phrases.map((phrase, index) => [words(phrase), isUsual(phrase, index) ? 1 : OTHERWISE] as const));

/** Phrases that stand for a value of `slot`, with the values they may stand for. */
export function slotWords(slot: PlaceKey, engine: Engine): ReadonlyMap<string, string | number> {
  if (slot === "part") return new Map(saidApart(Object.keys(PART_WORDS)).map((phrase) => [phrase, PART_WORDS[phrase] ?? ""]));
  const of = new Map<string, string | number>();
  const own = slotRow(slot).own ? valuesOf(slot, { engine, fasteners: {} }, {}) : undefined;
  for (const phrase of saidApart(Object.keys(SLOT_WORDS))) {
    const value = SLOT_WORDS[phrase]?.slots?.find(([key]) => key === slot)?.[1];
    if (value !== undefined && (own === undefined || own.includes(value))) of.set(phrase, value);
  }
  return of;
}

/** Whether a phrase is the plain word for what it stands for: "top", "side a", "rear". */
export const isPlainly = (phrase: string, value: string | number): boolean => phrase.split(" ").includes(String(value));

/** What may stand before a number that counts `slot`, each with how usual it is. */
export function nounsOf(slot: PlaceKey): readonly (readonly [string, number])[] {
  // A rod counts cylinders as well as a cylinder rods, but then it is the rod that is meant.
  const counts = (noun: Noun) => BY_NOUN[noun].includes(slot) && noun !== "ring" && !(noun === "rod" && slot !== "rod");
  const usual = (noun: Noun) => {
    if (noun === "number" || noun === slot || BY_NOUN[noun].length === 1) return 1;
    return BY_NOUN[noun][0] === slot ? 2 * OTHERWISE : OTHERWISE * OTHERWISE;
  };
  return (Object.keys(NOUN_WORDS) as Noun[])
    .filter(counts)
    .flatMap((noun) =>
      saidApart(NOUN_WORDS[noun]).map((phrase, index) => [phrase, usual(noun) * (index === 0 ? 1 : OTHERWISE)] as const),
    );
}

/** "second", "rear": which of so many, said before the noun. */
export function ordinals(count: number): readonly string[] {
  const counted = Object.keys(ORDINAL_COUNTS).filter((word) => (ORDINAL_COUNTS[word] ?? 0) <= count);
  const ends = Object.keys(SLOT_WORDS).filter((word) => SLOT_WORDS[word]?.ordinal !== undefined);
  // Of an even count none is in the middle.
  return saidApart([...counted, ...ends.filter((word) => SLOT_WORDS[word]?.ordinal !== "middle" || count % 2 === 1)]);
}

export const unitWords = (unit: UnitWord): readonly string[] => saidApart(UNIT_WORDS[unit]);

export const signWords = (...signs: readonly SignWord[]): readonly string[] =>
  saidApart(signs.flatMap((sign) => SIGN_WORDS[sign]));

const SIGNS: ReadonlySet<string> = new Set(Object.values(SIGN_WORDS).flat());

/** Phrases by the word of a name that they stand for: "plastic gauge" for "clearance". What tells a sign as well stands for no name. */
const STAND_INS: ReadonlyMap<string, readonly string[]> = (() => {
  const of = new Map<string, string[]>();
  for (const [phrase, feat] of [...Object.entries(FORMS), ...Object.entries(NAME_WORDS)])
    if (!SIGNS.has(phrase)) of.set(feat, [...(of.get(feat) ?? []), phrase]);
  return of;
})();

/** A name with one word of it said otherwise; several words stand for the whole of a name only, or go on from it. */
const otherwise = (name: string): readonly string[] => {
  const parts = name.split(" ");
  return parts.flatMap((part, at) =>
    (STAND_INS.get(canonical(part)) ?? []).flatMap((instead) => {
      if (instead.startsWith(`${name} `)) return [instead];
      // "Turns over at" for "turns at".
      if (parts.length > 1 && instead.startsWith(`${parts[0]} `) && instead.endsWith(` ${parts.at(-1)}`)) return [instead];
      if (instead.includes(" ")) return parts.length === 1 ? [instead] : [];
      // Nobody says "valves seat".
      if (parts.includes(instead) || (parts.length > 1 && instead.endsWith("s"))) return [];
      return [parts.with(at, instead).join(" ")];
    }),
  );
};

const ANY_NAME: ReadonlySet<string> = new Set(ALL_QUANTITIES.flatMap(({ spoken }) => spoken));

/** The names of a quantity and, said otherwise, the rest of its names; each with how usual it is. */
export function namesOf(spoken: readonly string[]): readonly (readonly [string, number])[] {
  const usual = spoken.map((name, index) => [name, index < 2 ? 1 : 0.5] as const);
  const other = saidApart(spoken.flatMap(otherwise).filter((name) => !ANY_NAME.has(name)));
  return [...usual.filter(([name]) => isSayable(name)), ...other.map((name) => [name, OTHERWISE] as const)];
}
