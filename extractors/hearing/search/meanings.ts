// Likely sentences in, what they would come to out: the best sentence of each meaning.
import type { Context } from "../../../shared/events/reading.ts";
import type { Spec } from "../../../shared/spec/spec.ts";
import { meaningOf } from "../meaning.ts";
import { sentenceOf } from "../text.ts";
import type { Sentence } from "./search.ts";

export interface Meant {
  readonly text: string;
  readonly score: number;
  /** The score by the sounds alone. */
  readonly sounds: number;
}

/** The best sentence of each meaning, best first. Of sentences with the same words, which no ear can tell apart, the likeliest counts. */
export function bestMeanings(sentences: readonly Sentence[], context: Context, spec: Spec): readonly Meant[] {
  const byMeaning = new Map<string, Meant>();
  const said = new Set<string>();
  for (const { words, score, sounds } of [...sentences].sort((a, b) => b.score - a.score)) {
    const text = sentenceOf(words);
    const bare = text.replaceAll(",", "");
    if (said.has(bare)) continue;
    said.add(bare);
    const meaning = meaningOf(text, context, spec);
    if (!byMeaning.has(meaning)) byMeaning.set(meaning, { text, score, sounds });
  }
  return [...byMeaning.values()];
}
