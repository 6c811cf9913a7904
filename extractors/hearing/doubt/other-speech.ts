// A sentence that would count in, how far ahead of it any other speech must be to be believed out: a closed grammar bends talk to what it
// has, and where nothing else in it sounds like that, no lead tells.
import { isFreeNote } from "../text.ts";
import type { Evidence } from "./evidence.ts";
import { isReadOut } from "./fragile.ts";
import type { Setting } from "./odd.ts";
import { A_WORD_OR_TWO, isBriefCommand } from "./verdict.ts";
import { type Pass, saidWords } from "./vote.ts";

/**
 * What fits better than this is not asked, cost a second: a decode is saved. Of 801 sentences in nine tuning voices 20 that would have
 * counted cost more; asked of all of them it lost no more.
 */
const MAY_BE_OTHER = 230;

/**
 * How far ahead of the words sounds of speech as they come must be, natural-log units, wherever they stand for some of them. In nine tuning
 * voices they were ahead of right sentences by 46 at most, but for five (71 to 136), and of talk that was taken for sentences ("one and a
 * half pints of oil") by 127 to 140. Under blows 20 dB below speech they are ahead of right ones by more, in accents above all: of 60
 * sentences in reporting voices as many as one in ten waited at 90.
 */
const FAR_BETTER = 125;
/** Of a read-out, where no band catches a digit that slipped: two with wrong digits were behind by 93 and 123. Under blows four right ones were. */
const FAR_BETTER_THAN_READ_OUT = 90;
/**
 * Of what is not open, where talk mostly ends: right ones were behind by 46 at most, and by 71 under blows; talk by 59 to 133. The same for
 * three words and more that cost more a second than `DEAR`: none of the right ones did that were behind at all, in quiet or under blows.
 */
const BETTER = 55;
const DEAR = 350;

/**
 * How much dearer than the words of `whole`, a pass of a whole grammar, other speech is to be when they are heard against each other,
 * natural-log units; undefined where they need not be. Only where the model is fitted to the voice: of a stranger's right sentences other
 * speech was ahead by up to 138 in quiet.
 */
export function otherWouldBe(
  whole: Pass,
  { strangeness }: Evidence,
  { fitted = false, elsewhere = false }: Setting,
): number | undefined {
  if (!fitted || strangeness <= MAY_BE_OTHER || isFreeNote(whole) || isBriefCommand(whole)) return undefined;
  const words = saidWords(whole);
  if (elsewhere || (strangeness > DEAR && words.length > A_WORD_OR_TWO)) return BETTER;
  return isReadOut(words) ? FAR_BETTER_THAN_READ_OUT : FAR_BETTER;
}
