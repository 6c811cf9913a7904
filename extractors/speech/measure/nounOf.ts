// The noun that a number counts, before it or after it.
import type { Noun, Token } from "../types.ts";

const COUNTED_NOUNS: ReadonlySet<Noun> = new Set(["main", "rod", "crankpin", "journal", "piston", "pin"]);

/** "number two main", "three main": the noun may follow its number when the number ends there. */
function nounAfter(tokens: readonly Token[], i: number): Noun | undefined {
  const next = tokens[i + 1];
  const noun = next?.pause === false ? next.sense.noun : undefined;
  const counted =
    tokens[i - 1]?.sense.noun === "number" || i === 0 || tokens[i]?.pause === true || tokens[i - 1]?.sense.kind === "prep";
  return noun !== undefined && COUNTED_NOUNS.has(noun) && counted && tokens[i + 2]?.sense.num === undefined ? noun : undefined;
}

/** The noun a number counts: "main two", and "main number two" is the main's. */
function nounBefore(tokens: readonly Token[], i: number): Noun | undefined {
  const noun = tokens[i - 1]?.sense.noun;
  if (noun !== "number") return noun;
  return (tokens[i - 1]?.pause === false ? tokens[i - 2]?.sense.noun : undefined) ?? nounAfter(tokens, i) ?? noun;
}

/** The noun of the number at i; a pause before it parts it from the noun before. */
export function nounOf(tokens: readonly Token[], i: number): Noun | undefined {
  return tokens[i]?.pause ? nounAfter(tokens, i) : (nounBefore(tokens, i) ?? nounAfter(tokens, i));
}
