// Votes, evidence and the room's noise in, one verdict out. The thresholds were tuned on synthetic voices (see the benchmark).
import type { HeardVerdict } from "../types.ts";
import type { Evidence } from "./evidence.ts";
import type { Vote } from "./vote.ts";

/** Below this the words cannot be trusted whatever they are. */
export const LOUDEST_SNR = 8;
/** Above: other talk that the grammar was bent to; when all passes agree, a little further. */
const STRANGE = 400;
export const STRANGE_AGREED = 460;
/** Below this there is no speech in the clip, only the room. */
export const FLATTEST_SNR = 4;
const ODD = 315;
/** Above this, two that agree are not enough: strange voices are misheard alike at neighbouring scales. */
export const UNUSUAL = 275;
/** A long sentence that all passes agree on is asked about where a short one would be let go. */
const LONG_SENTENCE = 4;
const LONG_ALLOWANCE = 95;
const UNEXPLAINED_NOTHING = 0.6;
const UNEXPLAINED_DOUBT = 0.25;
const SHORTEST_WORD = 0.06;
const MAJORITY = 0.5;

/** How far to believe the winner of `vote`. */
export function judge(vote: Vote | undefined, evidence: Evidence | undefined, snr: number): HeardVerdict {
  if (vote === undefined || evidence === undefined) return "nothing";
  const long = vote.winner.decoded.words.length >= LONG_SENTENCE;
  const together = vote.agreement === 1 && vote.voters.length >= 2;
  const strange = together ? STRANGE_AGREED + (long ? LONG_ALLOWANCE : 0) : STRANGE;
  if (evidence.strangeness > strange || evidence.unexplained > UNEXPLAINED_NOTHING) return "nothing";
  if (snr < LOUDEST_SNR) return "too_loud";
  // Nothing in common and hard to fit besides: talk that is not for the book.
  if (vote.agreement < MAJORITY && evidence.strangeness > ODD) return "nothing";
  const odd = evidence.strangeness > ODD || evidence.unexplained > UNEXPLAINED_DOUBT || evidence.shortest < SHORTEST_WORD;
  return together && !odd ? "ok" : "doubtful";
}
