// "same on three": the last reading's value at another place.
import type { Command, Question, Reading } from "../../../shared/events/reading.ts";
import { QUANTITIES } from "../../../shared/quantities/registry.ts";
import type { Env } from "../measure/env.ts";
import { along } from "../measure/list.ts";
import { question } from "../state.ts";
import { toTokens } from "../tokens.ts";
import type { Word } from "../types.ts";
import { SAME_WORDS } from "../vocabulary/commands.ts";
import { readPlace } from "./place.ts";

export interface CopyRead {
  readonly commands: readonly Command[];
  readonly readings: readonly Reading[];
  readonly questions: readonly Question[];
}

const PHRASES = [...SAME_WORDS].sort((a, b) => b.length - a.length);
/** Words that say every place. */
const EVERY = /\b(?:all|all four|all three|every|rest|others|both|everything)\b/;
const UNITS = /\b(?:thou|tenths?|inch(?:es)?|pounds|degrees|psi|cc|grams)\b/;

/** Read a copy, or undefined when the sentence is none. */
export function readCopy(words: readonly Word[], env: Env): CopyRead | undefined {
  const text = words.map((word) => word.text).join(" ");
  const phrase = PHRASES.find((p) => text === p || text.startsWith(`${p} `) || text.endsWith(` ${p}`));
  // A value said with it is a reading for every place, not a copy.
  if (phrase === undefined || UNITS.test(text)) return undefined;
  const span: [number, number] = [words[0]?.start ?? 0, words[words.length - 1]?.end ?? 0];
  const last = env.context.last;
  const rest = text
    .replace(phrase, " ")
    .trim()
    .split(/\s+/)
    .filter((w) => w !== "");
  const kept = words.filter((word) => rest.includes(word.text));
  const tokens = toTokens(kept);
  if (tokens.some((token) => token.unknown || token.sense.kind === "talk")) return undefined;
  if (last === undefined) return { commands: [], readings: [], questions: [question("nothing_to_copy")] };
  const quantity = QUANTITIES[last.quantity];
  const command: Command = { command: "copy", span };
  const base = { ...last.place };
  const make = (place: Reading["place"], implied: string[], wait: boolean): Reading => ({
    quantity: last.quantity,
    place,
    value: last.value,
    unit: last.unit,
    digits: typeof last["digits"] === "string" ? last["digits"] : decimalText(last.value),
    implied: ["quantity", "value", "unit", ...implied],
    do: wait ? "confirm" : "accept",
    span,
    ...(wait ? { because: "copied" } : {}),
  });
  if (EVERY.test(text)) {
    const slot = (["cylinder", "main", "rod"] as const).find((key) => base[key] !== undefined);
    if (slot === undefined) return { commands: [], readings: [], questions: [question("which_place")] };
    const others = along(slot, env.spec, base).filter((value) => /\ball\b|\bevery/.test(text) || value !== base[slot]);
    return { commands: [command], readings: others.map((value) => make({ ...base, [slot]: value }, [], true)), questions: [] };
  }
  const places = copies(tokens, env, quantity);
  if (places.length === 0)
    return { commands: [], readings: [], questions: [question("which_place", undefined, { quantity: last.quantity })] };
  const readings = places.map((place) => {
    const implied = Object.keys(base).filter((key) => !(key in place));
    return make({ ...base, ...place }, implied, true);
  });
  const absent = readings.some(
    (reading) =>
      (reading.place.cylinder ?? 1) > env.spec.engine.cylinders ||
      (reading.place.main ?? 1) > env.spec.engine.mains ||
      (reading.place.rod ?? 1) > env.spec.engine.cylinders,
  );
  if (absent) return { commands: [], readings: [], questions: [question("no_such_place")] };
  return { commands: [{ ...command, place: places[0] ?? {} }], readings, questions: [] };
}

function copies(
  tokens: ReturnType<typeof toTokens>,
  env: Env,
  quantity: (typeof QUANTITIES)[keyof typeof QUANTITIES],
): Reading["place"][] {
  const whole = readPlace(tokens, 0, tokens.length, env, quantity);
  const numbers = tokens.flatMap((token) =>
    token.sense.num?.t === "digit" ? [token.sense.num.v] : token.sense.num?.t === "figures" ? [Number(token.sense.num.v)] : [],
  );
  if (whole === undefined) return [];
  if (numbers.length < 2) return [whole.place];
  const slot = (["cylinder", "main", "rod", "nut"] as const).find((key) => whole.place[key] !== undefined);
  return slot === undefined ? [whole.place] : numbers.map((n) => ({ ...whole.place, [slot]: n }));
}

/** Shortest decimal text of a double, without an exponent. */
function decimalText(value: number): string {
  const text = String(value);
  return text.includes("e") ? value.toFixed(7).replace(/0+$/, "").replace(/\.$/, "") : text;
}
