// A look in a voice that is fitted in, whether one check far ahead of what sounds like it is enough out.
import type { Clip } from "../heard.ts";
import { isFreeNote } from "../text.ts";
import type { Evidence } from "./evidence.ts";
import { isSlippery } from "./fragile.ts";
import type { Setting } from "./odd.ts";
import { hissIn, isBriefCommand, judge, leadWanted, NOISY_SNR } from "./verdict.ts";
import { type Pass, saidWords } from "./vote.ts";

/**
 * How far ahead of all that sounds like it, natural-log units, at another scale than the look's. Of 440 sentences in ten tuning voices
 * 264 that fitted were so at the look's own; by 25 and more 290, one of which was a read-out with a wrong digit.
 */
export const FAR_AHEAD = 40;
/** Sentences more that come to the same in other words, before it is given up: the checks that would follow are as many. */
export const FEW_ALIKE = 1;
/** The most that such a look may cost a second; less where a digit slips easily. */
const STRANGE = 300;
const STRANGE_IF_SLIPPERY = 260;
/**
 * So much more in noise, in which every sentence costs more. Of 747 tuning sentences in pink noise at 10 dB 449 came out exact and three
 * wrong by this and by one check for what will wait anyway (440 and four before, in half as much time again), in hum 614 and one (611, one).
 */
const MORE_IN_NOISE = 40;

/**
 * Whether a look may stand on one check; what it must show besides is what any winner must. One that will be asked about, because of what
 * it says, may too: of 801 tuning sentences 119 were settled with a check or two fewer by that, and none otherwise.
 */
export function mayStand(look: Pass, evidence: Evidence, { levels, treble }: Clip, setting: Setting): boolean {
  if (setting.fitted !== true || isFreeNote(look) || isBriefCommand(look)) return false;
  if (hissIn(levels.snr, treble()) === "loud") return false;
  const most = isSlippery(saidWords(look)) ? STRANGE_IF_SLIPPERY : STRANGE;
  if (evidence.strangeness > most + (levels.snr < NOISY_SNR ? MORE_IN_NOISE : 0)) return false;
  const judged = judge({ winner: look, voters: [look, look], agreement: 1 }, evidence, levels.snr, setting);
  return (judged === "ok" || judged === "pressed") && leadWanted(look, judged, levels.snr, treble, evidence.struck) <= FAR_AHEAD;
}
