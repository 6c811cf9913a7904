// A winning pass in, how clearly it leads the next best sentence out: in hiss all passes may agree on what was not said.
import { ownWords } from "./pass-words.ts";
import type { Pass } from "./vote.ts";

/** Scales around the winner's at which the lead is measured, the least counts: noise favours a wrong word at one of them. */
const SCALES = [1, 0.97, 1.03] as const;
/** Sentences that come to the same in other words, before it is given up to look for one that does not. */
const MOST_ALIKE = 6;

/** Hear what sounds like the winner at a scale, in the noise of pass `turn`, some sentences left out; undefined when nothing is left. */
export type HearRivals = (warp: number, turn: number, without: readonly (readonly string[])[]) => Pass | undefined;

/**
 * How much dearer the next best sentence that comes to something else is than the winner, the least of three scales or the first
 * below what is wanted, natural-log units; a step a decode.
 */
export function* leadOf(winner: Pass, wanted: number, hear: HearRivals): Generator<undefined, number> {
  const without = [ownWords(winner)];
  let least = Number.POSITIVE_INFINITY;
  for (const [turn, scale] of SCALES.entries()) {
    const warp = winner.warp * scale;
    const own = hear(warp, turn, []);
    yield undefined;
    if (own?.meaning !== winner.meaning || own.decoded.cost === undefined) return 0;
    let next = hear(warp, turn, without);
    yield undefined;
    while (next?.meaning === winner.meaning) {
      if (without.length === MOST_ALIKE) return 0;
      without.push(ownWords(next));
      next = hear(warp, turn, without);
      yield undefined;
    }
    least = Math.min(least, (next?.decoded.cost ?? Number.POSITIVE_INFINITY) - own.decoded.cost);
    if (least < wanted) return least;
  }
  return least;
}
