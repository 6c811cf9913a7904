// Several decodes of one clip in, the words they agree on and how far out. Disagreement is doubt.
import type { Decoded } from "../engine/decoder.ts";
import { plainWord } from "../words/plain-word.ts";
import { isFragile } from "./fragile.ts";

export interface Pass {
  readonly warp: number;
  /** Which of the noises lay under it. */
  readonly turn: number;
  readonly decoded: Decoded;
  /**
   * Whether the whole grammar had its say, and not only what sounds like an earlier pass. The recogniser's costs are above
   * that of the best sound the grammar has at hand, so that those of a large grammar and of a small one cannot be compared.
   */
  readonly full: boolean;
  /** The sentence as the parser reads it. */
  readonly text: string;
  /** What the sentence comes to: equal for "bend" and "bent", different for "five" and "nine". */
  readonly meaning: string;
  /** Whether that would count at once if it were typed; what is out of its band or asks for more would not. */
  readonly plain: boolean;
  /** Whether it is a command and nothing else. */
  readonly command: boolean;
  /** How much dearer the sentence could have been and still be heard, as far as that was tried; natural-log units. */
  readonly ahead?: number;
  /** How much dearer it was not heard any more, though it was when it cost what it does; natural-log units. */
  readonly behind?: number;
}

export interface Vote {
  /** The pass to believe: the cheapest of those with the winning meaning. */
  readonly winner: Pass;
  /** Share of the passes with a say that share its meaning. */
  readonly agreement: number;
  readonly voters: readonly Pass[];
}

/** Words of a pass, roles left out. */
export const saidWords = ({ decoded }: Pass): readonly string[] => decoded.words.map(({ word }) => plainWord(word));

/** A pass this much dearer than the cheapest is at a wrong frequency scale and has no say. */
const DEARER = 1.12;

/**
 * But where a teen was heard, it has one still: the scales that fit best take "eighteen" and "sixteen" for "fifteen", and those
 * a little off do not (seven of nine slips of the tuning voices).
 */
const DEARER_TEEN = 1.35;

/**
 * What a pass cost, freed of its scale. Sound that is played slower has more frames to pay for, but smoother ones that cost
 * less each: between the two, the square root puts the scales at which tuning voices are heard best at the least cost.
 */
export const costOf = ({ decoded, warp }: Pick<Pass, "decoded" | "warp">): number =>
  (decoded.cost ?? Number.POSITIVE_INFINITY) * Math.sqrt(warp);

/** Passes that reached the end of the grammar, cheapest first. */
export function heardPasses(passes: readonly Pass[]): readonly Pass[] {
  return passes
    .filter((pass) => pass.text !== "" && pass.decoded.cost !== undefined)
    .sort((one, other) => costOf(one) - costOf(other));
}

/** The pass to go by before there are votes: the cheapest that makes sense here, unless it is much dearer than another. */
export function likeliest(passes: readonly Pass[]): Pass | undefined {
  const [best, ...others] = heardPasses(passes);
  if (best === undefined || best.plain) return best;
  return others.find((pass) => pass.plain && costOf(pass) <= costOf(best) * DEARER) ?? best;
}

/** Those of the passes that may have a say: not much dearer than the cheapest of their kind. */
function nearOf(heard: readonly Pass[], best: Pass): readonly Pass[] {
  const dearer = isFragile(saidWords(best)) ? DEARER_TEEN : DEARER;
  return [true, false].flatMap((full) => {
    const kind = heard.filter((pass) => pass.full === full);
    const [cheapest] = kind;
    return cheapest === undefined ? [] : kind.filter((pass) => costOf(pass) <= costOf(cheapest) * dearer);
  });
}

/** What does not make sense here needs company to speak against what does. */
const LONE = 1;

/**
 * Count the passes; undefined when none heard anything. A single check that heard what would be asked about (a size out of
 * its band, a place the engine does not have) does not speak against several that heard what fits; a look does, because
 * with the whole grammar to choose from it took that by itself.
 */
export function vote(passes: readonly Pass[]): Vote | undefined {
  const heard = heardPasses(passes);
  const [best] = heard;
  if (best === undefined) return undefined;
  // Where all heard the same there is no scale to be wrong.
  const near = heard.every(({ meaning }) => meaning === best.meaning) ? heard : nearOf(heard, best);
  const counts = new Map<string, number>();
  for (const { meaning } of near) counts.set(meaning, (counts.get(meaning) ?? 0) + 1);
  const count = ({ meaning }: Pass) => counts.get(meaning) ?? 0;
  let winner = best;
  for (const pass of near)
    if (count(pass) > count(winner) || (count(pass) === count(winner) && pass.plain && !winner.plain)) winner = pass;
  const voters = near.filter(
    (pass) => pass.meaning === winner.meaning || pass.plain || pass.full || !winner.plain || count(pass) > LONE,
  );
  return { winner, agreement: count(winner) / voters.length, voters };
}
