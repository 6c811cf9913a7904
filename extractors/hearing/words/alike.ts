// Two words or names in, how far apart they sound out.
import { saidAs } from "./dictionary.ts";

/** Least number of phones to change, put in or leave out between two pronunciations (Levenshtein distance). */
function phoneDistance(one: readonly string[], other: readonly string[]): number {
  let row = Array.from({ length: other.length + 1 }, (_, index) => index);
  for (let i = 1; i <= one.length; i += 1) {
    const next = [i];
    for (let j = 1; j <= other.length; j += 1)
      next[j] = Math.min((row[j] ?? 0) + 1, (next[j - 1] ?? 0) + 1, (row[j - 1] ?? 0) + (one[i - 1] === other[j - 1] ? 0 : 1));
    row = next;
  }
  return row[other.length] ?? 0;
}

/** Share of phones that two names have in common where they are said most alike: 1 for the same sound, 0 for no phone in common. */
export function likeness(one: string, other: string): number {
  const others = saidAs(other);
  const shares = saidAs(one).flatMap((a) => others.map((b) => 1 - phoneDistance(a, b) / Math.max(a.length, b.length)));
  return Math.max(0, ...shares);
}
