// What was heard in what is open and among everything in, which of the two to believe out.
import type { Heard } from "../types.ts";

/** A sentence about another thing must fit this much better than a doubtful one about what is open, cost a second. */
const CLEARLY_CHEAPER = 15;
/** Where the doubtful one costs less than this, no other fits so much better: of the tuning voices' sentences none did. */
const WELL_FITTING = 250;

/** Whether a hearing settles the sentence, so that no wider grammar need be asked. */
export const isSettled = ({ verdict, doubt }: Heard): boolean =>
  verdict === "ok" || verdict === "too_loud" || (verdict === "doubtful" && doubt.strangeness < WELL_FITTING);

/** Of a hearing in what is open that settled nothing, and one among everything, the one to go by. */
export function widerIfBetter(near: Heard, wide: Heard): Heard {
  const fitsBetter = wide.doubt.strangeness < near.doubt.strangeness - CLEARLY_CHEAPER;
  return near.verdict === "nothing" || (wide.verdict === "ok" && fitsBetter) ? wide : near;
}
