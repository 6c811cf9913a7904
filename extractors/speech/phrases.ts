// A list of phrases looked up by their first word: which of them, the longest first, the words begin or end with.
import type { Word } from "./types.ts";

export type PhraseIndex = ReadonlyMap<string, readonly (readonly string[])[]>;

const spread = (phrases: readonly string[]): string[][] =>
  phrases.map((phrase) => phrase.split(" ")).sort((a, b) => b.length - a.length);

/** Index phrases by their first word, or by their last. */
export function indexPhrases(phrases: readonly string[], by: "first" | "last" = "first"): PhraseIndex {
  const index = new Map<string, string[][]>();
  for (const words of spread(phrases)) {
    const key = (by === "first" ? words[0] : words[words.length - 1]) ?? "";
    index.set(key, [...(index.get(key) ?? []), words]);
  }
  return index;
}

/** Every indexed phrase the words begin with, longest first. */
export function beginnings(index: PhraseIndex, words: readonly Word[]): (readonly string[])[] {
  const found = index.get(words[0]?.text ?? "");
  return found === undefined ? [] : found.filter((phrase) => phrase.every((text, k) => words[k]?.text === text));
}

/** Every indexed phrase the words end with, longest first. */
export function endings(index: PhraseIndex, words: readonly Word[]): (readonly string[])[] {
  const found = index.get(words[words.length - 1]?.text ?? "");
  return found === undefined
    ? []
    : found.filter((phrase) => phrase.every((text, k) => words[words.length - phrase.length + k]?.text === text));
}
