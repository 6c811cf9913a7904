// Quantity names in a stretch of tokens: which quantities the words said can name, and how fully.
import { ALL_QUANTITIES } from "../../../shared/quantities/registry.ts";
import type { QuantityId } from "../../../shared/quantities/types.ts";
import { toTokens } from "../tokens.ts";
import { PLACE_LIKE } from "../vocabulary/names.ts";
import { toWords } from "../words.ts";

interface Pattern {
  readonly id: QuantityId;
  readonly size: number;
  /** How many of its words name nothing but quantities. */
  readonly solid: number;
}

const BY_FEAT = new Map<string, Pattern[]>();
const FEATS = new Map<QuantityId, Set<string>>();
const NO_NAMES: ReadonlySet<string> = new Set();

for (const quantity of ALL_QUANTITIES) {
  for (const phrase of quantity.spoken) {
    const feats = new Set<string>();
    for (const token of toTokens(toWords(phrase))) {
      if (token.sense.feat !== undefined) feats.add(token.sense.feat);
      if (token.sense.slots?.some(([slot]) => slot === "valve")) feats.add("valve");
    }
    if (feats.size === 0) continue;
    const pattern: Pattern = {
      id: quantity.id,
      size: feats.size,
      solid: [...feats].filter((feat) => !PLACE_LIKE.has(feat)).length,
    };
    FEATS.set(quantity.id, new Set([...(FEATS.get(quantity.id) ?? []), ...feats]));
    for (const feat of feats) {
      const list = BY_FEAT.get(feat);
      if (list === undefined) BY_FEAT.set(feat, [pattern]);
      else list.push(pattern);
    }
  }
}

/** Every word of the names of a quantity. */
export const namesOf = (id: QuantityId): ReadonlySet<string> => FEATS.get(id) ?? NO_NAMES;

/** How much of a stretch a name covers. */
export interface Cover {
  readonly words: number;
  readonly solid: number;
}

/** The best name of each quantity that the words of a stretch make up. */
export function namedBy(feats: ReadonlySet<string>): Map<QuantityId, Cover> {
  const hits = new Map<Pattern, number>();
  const covered = new Map<QuantityId, Cover>();
  for (const feat of feats) {
    for (const pattern of BY_FEAT.get(feat) ?? []) {
      const n = (hits.get(pattern) ?? 0) + 1;
      hits.set(pattern, n);
      if (n === pattern.size && n > (covered.get(pattern.id)?.words ?? 0))
        covered.set(pattern.id, { words: n, solid: pattern.solid });
    }
  }
  return covered;
}
