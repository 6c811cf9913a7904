// The unit after a number in general text, by longest phrase.
import { GENERAL_UNITS } from "../vocabulary/generalUnits.ts";
import type { GeneralWord } from "./words.ts";

const PHRASES = new Map<string, string>();
const STARTS = new Map<string, number>();
for (const [unit, phrases] of Object.entries(GENERAL_UNITS)) {
  for (const phrase of phrases) {
    PHRASES.set(phrase, unit);
    const words = phrase.split(" ");
    const first = words[0] ?? "";
    STARTS.set(first, Math.max(STARTS.get(first) ?? 0, words.length));
  }
}

/** Unit and end of the unit phrase at i. */
export function generalUnitAt(words: readonly GeneralWord[], i: number): { unit: string; to: number } | undefined {
  const first = words[i];
  if (first === undefined || first.pause) return undefined;
  const longest = STARTS.get(first.text);
  if (longest === undefined) return undefined;
  let found: { unit: string; to: number } | undefined;
  let text = "";
  for (let j = i; j < words.length && j < i + longest; j++) {
    const word = words[j] as GeneralWord;
    if (j > i && word.pause) break;
    text = j === i ? word.text : `${text} ${word.text}`;
    const unit = PHRASES.get(text);
    if (unit !== undefined) found = { unit, to: j + 1 };
  }
  return found;
}
