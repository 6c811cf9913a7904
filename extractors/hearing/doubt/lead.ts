// A winning pass in, how clearly it leads the next best sentence out: in hiss all passes may agree on what was not said.
import { ownWords } from "./pass-words.ts";
import type { Pass } from "./vote.ts";

/** Checks at which the lead is measured besides; the least counts, because noise favours a wrong word at one scale. */
const MOST_CHECKS = 2;
/** Sentences that come to the same in other words, before it is given up to look for one that does not. */
const MOST_ALIKE = 6;

/** Hear what sounds like the winner at a scale, in the noise of pass `turn`, some sentences left out; undefined when nothing is left. */
export type HearRivals = (warp: number, turn: number, without: readonly (readonly string[])[]) => Pass | undefined;

/**
 * How much dearer the next best sentence that comes to something else is than the winner: at its own scale and at checks that heard
 * the same, the least of them or the first below what is wanted, natural-log units. A step a decode.
 */
export function* leadOf(winner: Pass, voters: readonly Pass[], wanted: number, hear: HearRivals): Generator<undefined, number> {
  const own = hear(winner.warp, 0, []);
  yield undefined;
  const same = (pass: Pass) => pass.meaning === winner.meaning && pass.decoded.cost !== undefined;
  if (own === undefined || !same(own)) return 0;
  const without = [ownWords(winner)];
  let least = Number.POSITIVE_INFINITY;
  const checks = voters.filter((pass) => !pass.full && same(pass)).slice(0, MOST_CHECKS);
  for (const { warp, turn, decoded } of [own, ...checks]) {
    let next = hear(warp, turn, without);
    yield undefined;
    while (next?.meaning === winner.meaning) {
      if (without.length === MOST_ALIKE) return 0;
      without.push(ownWords(next));
      next = hear(warp, turn, without);
      yield undefined;
    }
    least = Math.min(least, (next?.decoded.cost ?? Number.POSITIVE_INFINITY) - (decoded.cost ?? 0));
    if (least < wanted) return least;
  }
  return least;
}
