// What was heard in what is open and among everything in, which of the two to believe out.
import type { Heard } from "../types.ts";

/** A sentence about another thing must fit this much better than a doubtful one about what is open, cost a second. */
const CLEARLY_CHEAPER = 15;
/** Where the doubtful one costs less than this, no other fits so much better: of the tuning voices' sentences none did. */
const WELL_FITTING = 250;
/**
 * The same in noise and after blows, which make every sentence dearer. Of the tuning voices' sentences in pink noise at 10 dB and under
 * blows one in thirty that were asked about, and cost more, was another thing after all; nearly all looks at everything were in vain.
 */
const WELL_FITTING_IN_NOISE = 310;

/** Whether a hearing settles the sentence, so that no wider grammar need be asked; `noisy`: whether noise or a blow made it dearer. */
export function isSettled({ verdict, doubt }: Heard, noisy: boolean): boolean {
  if (verdict === "doubtful") return doubt.strangeness < (noisy ? WELL_FITTING_IN_NOISE : WELL_FITTING);
  return verdict === "ok" || verdict === "too_loud";
}

/** What a sentence among everything must cost less than, a second, to be gone by after `near`; undefined where any may be. */
export const betterThan = ({ verdict, doubt }: Heard): number | undefined =>
  verdict === "nothing" ? undefined : doubt.strangeness - CLEARLY_CHEAPER;

/** Of a hearing in what is open that settled nothing, and one among everything, the one to go by. */
export function widerIfBetter(near: Heard, wide: Heard): Heard {
  const limit = betterThan(near);
  return limit === undefined || (wide.verdict === "ok" && wide.doubt.strangeness < limit) ? wide : near;
}
