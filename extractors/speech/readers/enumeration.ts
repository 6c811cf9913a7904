// Places told off before a list of their values ("one to four: ...", "top middle bottom, ..."): the list runs along them
// anyway, so the telling-off is left out. In go words, out come the words without it.
import type { Spec } from "../../../shared/spec/spec.ts";
import { along } from "../measure/list.ts";
import type { Word } from "../types.ts";
import { NUMBER_WORDS } from "../vocabulary/numbers.ts";
import { isFigure } from "../words.ts";

const SLOTS = ["ring", "depth", "axis", "valve", "side", "end"] as const;
const THROUGH: ReadonlySet<string> = new Set(["to", "through", "thru"]);
const JOINS: ReadonlySet<string> = new Set(["and", "then"]);
const COUNTS = ["", "one", "two", "three", "four", "five", "six", "seven", "eight"];

const isNumber = (word: Word | undefined): boolean =>
  word !== undefined && (isFigure(word.text) || NUMBER_WORDS[word.text] !== undefined);

/** Whether exactly `n` values follow from `at`, each after a pause and beginning with a number. */
function valuesFollow(words: readonly Word[], at: number, n: number): boolean {
  let values = 0;
  for (let i = at; i < words.length; i++) {
    if (!words[i]?.pause) continue;
    const value = JOINS.has(words[i]?.text ?? "") ? words[i + 1] : words[i];
    if (!isNumber(value)) return false;
    values++;
  }
  return words[at]?.pause === true && values === n;
}

/** One past the last word of `names` said one after another from `i`; undefined when they are not. */
function toldOff(words: readonly Word[], i: number, names: readonly string[]): number | undefined {
  let at = i;
  for (const name of names) {
    if (JOINS.has(words[at]?.text ?? "")) at++;
    if (words[at]?.text !== name) return undefined;
    at++;
  }
  return at;
}

/** One past "one to four" at i, when the engine has four cylinders, or four mains. */
function counted(words: readonly Word[], i: number, spec: Spec): { to: number; n: number } | undefined {
  const [first, link, last] = [words[i]?.text, words[i + 1]?.text ?? "", words[i + 2]?.text ?? ""];
  if ((first !== "one" && first !== "1") || !THROUGH.has(link)) return undefined;
  const n = isFigure(last) ? Number(last) : COUNTS.indexOf(last);
  return n > 1 && (n === spec.engine.cylinders || n === spec.engine.mains) ? { to: i + 3, n } : undefined;
}

/** The words without the places told off before their values; the same words when none are. */
export function withoutEnumeration(words: readonly Word[], spec: Spec): readonly Word[] {
  for (let i = 1; i < words.length - 1; i++) {
    const range = counted(words, i, spec);
    if (range !== undefined && valuesFollow(words, range.to, range.n)) return without(words, i, range.to);
    for (const slot of SLOTS) {
      const names = along(slot, spec, {}).map(String);
      const to = toldOff(words, i, names);
      if (to !== undefined && valuesFollow(words, to, names.length)) return without(words, i, to);
    }
  }
  return words;
}

const without = (words: readonly Word[], from: number, to: number): Word[] => [...words.slice(0, from), ...words.slice(to)];
