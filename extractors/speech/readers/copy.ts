// "same on three": the last reading's value at another place.
import type { Command, Context, Question, Reading } from "../../../shared/events/reading.ts";
import { type Place, placeKey } from "../../../shared/places/places.ts";
import { QUANTITIES } from "../../../shared/quantities/registry.ts";
import type { Env } from "../measure/env.ts";
import { along } from "../measure/list.ts";
import { countOf } from "../measure/place.ts";
import { beginnings, endings, indexPhrases } from "../phrases.ts";
import { question } from "../state.ts";
import { toTokens } from "../tokens.ts";
import type { Token, Word } from "../types.ts";
import { COPY_IDLE, EVERY_WORDS, OTHERS_WORDS, SAME_WORDS } from "../vocabulary/commands.ts";
import { readPlace } from "./place.ts";

export interface CopyRead {
  readonly commands: readonly Command[];
  readonly readings: readonly Reading[];
  readonly questions: readonly Question[];
}

type Last = NonNullable<Context["last"]>;
type Span = [number, number];

const FIRST = indexPhrases(SAME_WORDS);
const LAST_WORDS = indexPhrases(SAME_WORDS, "last");
const NUMBERED = ["cylinder", "main", "rod", "nut"] as const;

/** Words with the copy's own phrase taken out, at the beginning or the end; undefined when it is at neither. */
function withoutPhrase(words: readonly Word[]): readonly Word[] | undefined {
  const first = beginnings(FIRST, words)[0];
  if (first !== undefined) return words.slice(first.length);
  const last = endings(LAST_WORDS, words)[0];
  return last === undefined ? undefined : words.slice(0, -last.length);
}

const asks = (...questions: Question[]): CopyRead => ({ commands: [], readings: [], questions });

/** Read a copy, or undefined when the sentence is none. A value said with it makes it a reading, not a copy. */
export function readCopy(words: readonly Word[], env: Env): CopyRead | undefined {
  const rest = withoutPhrase(words);
  if (rest === undefined) return undefined;
  const every = words.some((word) => EVERY_WORDS.has(word.text));
  const others = words.some((word) => OTHERS_WORDS.has(word.text));
  const tokens = toTokens(
    rest.filter((word) => !COPY_IDLE.has(word.text) && !EVERY_WORDS.has(word.text) && !OTHERS_WORDS.has(word.text)),
  );
  const strange = (token: Token) =>
    token.unknown || token.sense.kind === "talk" || (token.sense.unit !== undefined && !token.sense.repaired);
  if (tokens.some(strange)) return undefined;
  const { last } = env.context;
  if (last === undefined) return asks(question("nothing_to_copy"));
  const span: Span = [words[0]?.start ?? 0, words[words.length - 1]?.end ?? 0];
  const places = every || others ? everyPlace(last, env, others) : placesIn(tokens, last, env);
  if (places.length === 0) return asks(question("which_place", undefined, { quantity: last.quantity }));
  const whole = places.map((place) => ({ ...last.place, ...place }));
  if (whole.some((place) => NUMBERED.some((slot) => isAbsent(place, slot, env)))) return asks(question("no_such_place"));
  const readings = whole.map((place, k) => copyOf(last, place, places[k] ?? {}, span));
  const first = places[0];
  return { commands: [{ command: "copy", span, ...(first === undefined ? {} : { place: first }) }], readings, questions: [] };
}

function isAbsent(place: Place, slot: (typeof NUMBERED)[number], env: Env): boolean {
  const value = place[slot];
  const count = countOf(env.spec, slot, place);
  return typeof value === "number" && count !== undefined && value > count;
}

/** Every place along the last reading's number, or every other one. */
function everyPlace(last: Last, env: Env, others: boolean): Place[] {
  const slot = NUMBERED.find((key) => last.place[key] !== undefined);
  if (slot === undefined) return [];
  const all = along(slot, env.spec, last.place).filter((value) => !others || value !== last.place[slot]);
  return all.map((value) => ({ [slot]: value }) as Place);
}

/** Places said; none said but a new one taken up since the last reading, that one. */
function placesIn(tokens: readonly Token[], last: Last, env: Env): Place[] {
  const read = readPlace(tokens, 0, tokens.length, env, QUANTITIES[last.quantity])?.place;
  if (read === undefined) {
    const moved = tokens.length === 0 && env.context.place !== undefined && placeKey(env.place) !== placeKey(last.place);
    return moved ? [env.place] : [];
  }
  const numbers = tokens.flatMap((token) => numberIn(token));
  const slot = NUMBERED.find((key) => read[key] !== undefined);
  if (numbers.length < 2 || slot === undefined) return [read];
  return numbers.map((n) => ({ ...read, [slot]: n }));
}

function numberIn(token: Token): number[] {
  const atom = token.sense.num;
  if (atom?.t === "digit" || atom?.t === "teen") return [atom.v];
  return atom?.t === "figures" && /^\d+$/.test(atom.v) ? [Number(atom.v)] : [];
}

function copyOf(last: Last, place: Place, said: Place, span: Span): Reading {
  const kept = Object.keys(place).filter((slot) => !(slot in said));
  return {
    quantity: last.quantity,
    place,
    value: last.value,
    unit: last.unit,
    digits: digitsOf(last),
    implied: ["quantity", "value", "unit", ...kept],
    do: "confirm",
    span,
    because: "copied",
  };
}

/** The last reading's own digits when it brought them, else the shortest decimal text of its value. */
function digitsOf(last: Last): string {
  const given: unknown = Object.entries(last).find(([key]) => key === "digits")?.[1];
  if (typeof given === "string" && /^-?\d+(\.\d+)?$/.test(given) && Number(given) === last.value) return given;
  const text = String(last.value);
  return text.includes("e") ? last.value.toFixed(9).replace(/\.?0+$/, "") : text;
}
