// What was heard first and what a sentence is about in outline in, which of the two to believe out.
import type { Heard } from "../types.ts";

/** A sentence about another thing must fit this much better than a doubtful one about what is open, cost a second. */
const CLEARLY_CHEAPER = 15;
/** Where the doubtful one costs less than this, no other fits so much better: of the tuning voices' sentences none did. */
const WELL_FITTING = 250;
/**
 * The same in noise and after blows, which make every sentence dearer. Of the tuning voices' sentences in pink noise at 10 dB and under
 * blows one in thirty that were asked about, and cost more, was another thing after all; nearly all further looks were in vain.
 */
const WELL_FITTING_IN_NOISE = 310;

/** Whether a hearing settles the sentence, so that nothing else need be asked; `noisy`: whether noise or a blow made it dearer. */
export function isSettled({ verdict, doubt }: Heard, noisy: boolean): boolean {
  if (verdict === "doubtful") return doubt.strangeness < (noisy ? WELL_FITTING_IN_NOISE : WELL_FITTING);
  return verdict === "ok" || verdict === "too_loud";
}

/** What a sentence about another thing must cost less than, a second, to be gone by after what was heard first; undefined where any may be. */
export const betterThan = ({ verdict, doubt }: Heard): number | undefined =>
  verdict === "nothing" ? undefined : doubt.strangeness - CLEARLY_CHEAPER;

/**
 * Of what was heard first and settled nothing, and what was heard as what the outline named, the one to go by. Where the first is no more
 * than another guess at what the sentence is about (`guessed`), the one that fits better is asked about.
 */
export function laterIfBetter(first: Heard, later: Heard, guessed: boolean): Heard {
  const limit = betterThan(first);
  const isGoneBy = later.verdict === "ok" || (guessed && later.verdict === "doubtful");
  return limit === undefined || (isGoneBy && later.doubt.strangeness < limit) ? later : first;
}
