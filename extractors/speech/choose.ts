// The sentence as it stands against the sentence with misheard words put back: the better reading of the two.
import { placeKey } from "../../shared/places/places.ts";
import type { Draft } from "./measure/draft.ts";
import type { Env } from "./measure/env.ts";
import { type Hypothesis, hypotheses } from "./measure/hypothesis.ts";
import { repaired } from "./repair.ts";
import { toTokens } from "./tokens.ts";
import type { Token, Word } from "./types.ts";

/** What a repair of misheard words must gain to be believed. */
const REPAIR_GAIN = 3;

export interface Best {
  readonly tokens: readonly Token[];
  readonly found: readonly Hypothesis[];
  readonly repairs: readonly string[];
  readonly grave: boolean;
  /** A repair reads otherwise and is nearly as likely. */
  readonly doubt: readonly Draft[];
}

/** Read the words as they stand and repaired; keep the better. */
export function best(words: readonly Word[], tokens: readonly Token[], env: Env): Best {
  let top: Best = { tokens, found: hypotheses(tokens, 0, tokens.length, env), repairs: [], grave: false, doubt: [] };
  let score = weigh(top);
  const clean = isClean(top);
  for (const [digits, trade] of TRIES) {
    const other = repaired(words, digits, trade);
    // A sentence that reads well as it stands hides no trade word, unless a phrase of it means nothing as written.
    if (other === undefined || (clean && trade && other.bonus === 0)) continue;
    const otherTokens = toTokens(other.words);
    const found = hypotheses(otherTokens, 0, otherTokens.length, env);
    const first = found[0];
    if (first === undefined) continue;
    const next: Best = { tokens: otherTokens, found, repairs: other.repairs, grave: other.grave, doubt: [] };
    const gain = weigh(next) - other.repairs.length + other.bonus;
    if (gain > score + REPAIR_GAIN) {
      top = next;
      score = gain;
    } else if (gain > score && top.found[0] !== undefined && differs(first, top.found[0])) {
      top = { ...top, doubt: first.drafts };
    }
  }
  return top;
}
const TRIES = [
  [true, false],
  [false, true],
  [true, true],
] as const;

/** Every word read, every value named, placed and plausible. */
function isClean(one: Best): boolean {
  const first = one.found[0];
  if (first === undefined || first.drafts.some((d) => d.missing.length > 0 || d.absent.length > 0)) return false;
  if (first.drafts.some((d) => d.known === "guess" || d.value.fit !== "in")) return false;
  return !one.tokens.some((token) => isOdd(token));
}

/** A word that means nothing at a bench, or a misheard unit where no unit stands. */
const isOdd = ({ unknown, sense }: Token): boolean =>
  unknown || sense.kind === "talk" || (sense.repaired === true && sense.kind === undefined);

/** A reading's score with its unread words held against it. */
function weigh(one: Best): number {
  const first = one.found[0];
  if (first === undefined) return -20;
  let odd = 0;
  for (const token of one.tokens) if (isOdd(token)) odd++;
  return first.score - odd * ODD_WORD;
}
const ODD_WORD = 4;

/** Whether two hypotheses say different things. */
export function differs(a: Hypothesis, b: Hypothesis): boolean {
  return a.drafts.some((draft, k) => {
    const other = b.drafts[k];
    if (other === undefined || draft.quantity !== other.quantity) return true;
    const same =
      draft.value.unit === other.value.unit &&
      draft.value.dec.n * 10 ** other.value.dec.s === other.value.dec.n * 10 ** draft.value.dec.s;
    return !same || placeKey(draft.place) !== placeKey(other.place);
  });
}
