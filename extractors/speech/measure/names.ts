// Quantity names in a stretch of tokens: which quantities the words said can name, and how fully.
import { ALL_QUANTITIES } from "../../../shared/quantities/registry.ts";
import type { QuantityId } from "../../../shared/quantities/types.ts";
import { toTokens } from "../tokens.ts";
import { toWords } from "../words.ts";

interface Pattern {
  readonly id: QuantityId;
  readonly size: number;
  /** Name phrases earlier in the registry row are more usual. */
  readonly rank: number;
}

const BY_FEAT = new Map<string, Pattern[]>();

for (const quantity of ALL_QUANTITIES) {
  quantity.spoken.forEach((phrase, rank) => {
    const feats = new Set<string>();
    for (const token of toTokens(toWords(phrase))) {
      if (token.sense.feat !== undefined) feats.add(token.sense.feat);
      if (token.sense.slots?.some(([slot]) => slot === "valve")) feats.add("valve");
    }
    if (feats.size === 0) return;
    const pattern: Pattern = { id: quantity.id, size: feats.size, rank };
    for (const feat of feats) {
      const list = BY_FEAT.get(feat);
      if (list === undefined) BY_FEAT.set(feat, [pattern]);
      else list.push(pattern);
    }
  });
}

/** How many words of the stretch the best name of each quantity covers. */
export function namedBy(feats: ReadonlySet<string>): Map<QuantityId, number> {
  const hits = new Map<Pattern, number>();
  const covered = new Map<QuantityId, number>();
  for (const feat of feats) {
    for (const pattern of BY_FEAT.get(feat) ?? []) {
      const n = (hits.get(pattern) ?? 0) + 1;
      hits.set(pattern, n);
      if (n === pattern.size && n > (covered.get(pattern.id) ?? 0)) covered.set(pattern.id, n);
    }
  }
  return covered;
}
