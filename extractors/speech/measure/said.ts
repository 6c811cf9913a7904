// What the words of a clause say, gathered once for every candidate.
import type { Sense, SignWord, Token } from "../types.ts";
import type { Clause } from "./clauses.ts";

export interface Said {
  readonly senses: readonly Sense[];
  readonly feats: ReadonlySet<string>;
  readonly signs: readonly SignWord[];
  /** Name words that are sign words too ("short", "proud"). */
  readonly signFeats: ReadonlyMap<string, SignWord>;
}

/** "over cylinder two", "under the main": before a place the word is a preposition, not a sign. */
function isPreposition(tokens: readonly Token[], i: number): boolean {
  const token = tokens[i] as Token;
  if (token.text !== "over" && token.text !== "under") return false;
  const next = tokens[i + 1];
  if (next === undefined || next.pause) return false;
  if (next.text === "the" || next.text === "at") return true;
  const { noun, slots } = next.sense;
  return (noun !== undefined && tokens[i + 2]?.sense.num !== undefined) || slots !== undefined;
}

/** Senses, name words and sign words of a clause. */
export function saidIn(clause: Clause, tokens: readonly Token[]): Said {
  const senses: Sense[] = [];
  const feats = new Set<string>();
  const signs: SignWord[] = [];
  const signFeats = new Map<string, SignWord>();
  for (const i of clause.words) {
    const { sense } = tokens[i] as Token;
    senses.push(sense);
    if (sense.feat !== undefined) feats.add(sense.feat);
    if (sense.sign !== undefined && !isPreposition(tokens, i)) {
      signs.push(sense.sign);
      if (sense.feat !== undefined) signFeats.set(sense.feat, sense.sign);
    }
    const slot = sense.slots?.[0]?.[0];
    if (slot === "valve" || slot === "ring") feats.add(slot);
  }
  return { senses, feats, signs, signFeats };
}
