// What the words of a clause say, gathered once for every candidate.
import type { Sense, SignWord, Token } from "../types.ts";
import type { Clause } from "./clauses.ts";

export interface Said {
  readonly senses: readonly Sense[];
  readonly feats: ReadonlySet<string>;
  readonly signs: readonly SignWord[];
}

/** Senses, name words and sign words of a clause. */
export function saidIn(clause: Clause, tokens: readonly Token[]): Said {
  const senses: Sense[] = [];
  const feats = new Set<string>();
  const signs: SignWord[] = [];
  for (const i of clause.words) {
    const { sense } = tokens[i] as Token;
    senses.push(sense);
    if (sense.feat !== undefined) feats.add(sense.feat);
    if (sense.sign !== undefined) signs.push(sense.sign);
    const slot = sense.slots?.[0]?.[0];
    if (slot === "valve" || slot === "ring") feats.add(slot);
  }
  return { senses, feats, signs };
}
