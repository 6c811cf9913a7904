// Several decodes of one clip in, the words they agree on and how far out. Disagreement is doubt.
import type { Decoded } from "../engine/decoder.ts";

export interface Pass {
  readonly warp: number;
  readonly decoded: Decoded;
  /** The sentence as the parser reads it. */
  readonly text: string;
  /** What the sentence comes to: equal for "bend" and "bent", different for "five" and "nine". */
  readonly meaning: string;
}

export interface Vote {
  /** The pass to believe: the cheapest of those with the winning meaning. */
  readonly winner: Pass;
  /** Share of the passes with a say that share its meaning. */
  readonly agreement: number;
  readonly voters: readonly Pass[];
}

/** A pass this much dearer than the cheapest is at a wrong frequency scale and has no say. */
const DEARER = 1.16;

/** Passes that reached the end of the grammar, cheapest first. */
export function heardPasses(passes: readonly Pass[]): readonly Pass[] {
  const cost = (pass: Pass) => pass.decoded.cost ?? Number.POSITIVE_INFINITY;
  return passes.filter((pass) => pass.text !== "" && pass.decoded.cost !== undefined).sort((a, b) => cost(a) - cost(b));
}

/** Count the passes; undefined when none heard anything. */
export function vote(passes: readonly Pass[]): Vote | undefined {
  const heard = heardPasses(passes);
  const [best] = heard;
  if (best?.decoded.cost === undefined) return undefined;
  const limit = best.decoded.cost * DEARER;
  const voters = heard.filter((pass) => (pass.decoded.cost ?? 0) <= limit);
  const counts = new Map<string, number>();
  for (const { meaning } of voters) counts.set(meaning, (counts.get(meaning) ?? 0) + 1);
  let winner = best;
  for (const pass of voters) if ((counts.get(pass.meaning) ?? 0) > (counts.get(winner.meaning) ?? 0)) winner = pass;
  return { winner, agreement: (counts.get(winner.meaning) ?? 0) / voters.length, voters };
}
