// A winning pass in, whether it leads the next best sentence clearly out: in hiss all passes may agree on what was not said.
import { solidOf } from "../grammar/rivals.ts";
import { ownWords } from "./pass-words.ts";
import type { Pass } from "./vote.ts";

/** Checks at which the lead is asked for besides: noise favours a wrong word at one scale. */
const MOST_CHECKS = 2;
/** Sentences more that come to the same in other words, before it is given up to look for one that does not. */
const MOST_ALIKE = 5;

/**
 * Hear what sounds like the winner at a scale, in the noise of pass `turn`, the `unwanted` sentences so much `dearer` than they are
 * (natural-log units; infinitely where that is left out); undefined when nothing is left.
 */
export type HearRivals = (
  at: Pick<Pass, "warp" | "turn">,
  unwanted: readonly (readonly string[])[],
  dearer?: number,
) => Pass | undefined;

/**
 * Whether the next best sentence that comes to something else is at least `wanted` dearer than the winner (natural-log units), at its
 * own scale and at two checks that heard the same, or at three that did so already: made so much dearer, the winner is still what is
 * heard. `ways` are sentences, the winner's among them, that are known to come to the same. The first pass that heard so; undefined
 * where one did not. A step a decode.
 */
export function* leads(
  winner: Pass,
  voters: readonly Pass[],
  wanted: number,
  hear: HearRivals,
  ways: readonly (readonly string[])[],
  mostAlike = MOST_ALIKE,
): Generator<undefined, Pass | undefined> {
  const same = (pass: Pass | undefined) => pass?.meaning === winner.meaning && pass.decoded.cost !== undefined;
  const isAhead = (pass: Pass) => same(pass) && (pass.ahead ?? 0) >= wanted;
  const known = voters.filter(isAhead);
  if (known.length > MOST_CHECKS) return known[0];
  const checks = voters.filter((pass) => !pass.full && same(pass)).slice(0, MOST_CHECKS);
  // Where something else was heard for less than is wanted, it would be again.
  if (checks.some(({ behind = Number.POSITIVE_INFINITY }) => behind <= wanted)) return undefined;
  const unwanted = [...ways];
  const isUnwanted = (pass: Pass) => unwanted.some((words) => solidOf(words) === solidOf(ownWords(pass)));
  let own: Pass | undefined;
  for (const at of [{ warp: winner.warp, turn: 0 }, ...checks.filter((pass) => !isAhead(pass))]) {
    let next = hear(at, unwanted, wanted);
    yield undefined;
    // The same in other words has not been made dearer yet.
    while (next !== undefined && same(next) && !isUnwanted(next)) {
      if (unwanted.length - ways.length === mostAlike) return undefined;
      unwanted.push(ownWords(next));
      next = hear(at, unwanted, wanted);
      yield undefined;
    }
    if (!same(next)) return undefined;
    own ??= next;
  }
  return own;
}
