// How many passes must agree before a sentence counts.
import { isFreeNote } from "../text.ts";
import { isSlippery } from "./fragile.ts";
import type { Setting } from "./odd.ts";
import { FAIR_COMMAND } from "./odd-command.ts";
import { FAR_AHEAD } from "./stands.ts";
import { isBriefCommand, NOISY_SNR, UNUSUAL } from "./verdict.ts";
import { saidWords, type Vote } from "./vote.ts";

/** Passes that must agree on what is not easily taken for another. */
const ENOUGH = 3;
/**
 * Below each of these ratios (dB) one more must agree on what a stranger says, or on a command. On a figure of a voice that is known not:
 * of nine tuning voices' 216 sentences in pink noise at 10 dB 127 came out exact by three and 126 by five, and under hum at 5 dB three and
 * four were wrong.
 */
const ONE_MORE_BELOW = [NOISY_SNR, 15];
/** Above this the model does not know the like of the voice well, and takes one word for another at all scales alike. */
const ODD_VOICE = 280;

/** Passes that must agree on what holds no figure and fits well in a voice that is known: each of them heard the whole grammar. */
const FEW = 2;

/** How many passes must agree: more in a stranger's noise, more for a voice that fits badly, and for what is easily taken for another. */
export function votesWanted({ winner }: Vote, snr: number, strangeness: number, { fitted = false }: Setting): number {
  const isBrief = isBriefCommand(winner) || isFreeNote(winner);
  const noisy = fitted && !isBrief ? 0 : ONE_MORE_BELOW.filter((limit) => snr < limit).length;
  if (isBrief && fitted && noisy === 0 && strangeness <= UNUSUAL) return FEW;
  // No more in noise than a figure in quiet.
  if (isBriefCommand(winner) && fitted && strangeness <= FAIR_COMMAND) return ENOUGH;
  return ENOUGH + noisy + (isSlippery(saidWords(winner)) || strangeness > ODD_VOICE ? 1 : 0);
}

/** Whether all that have a say agree, and are enough: three, or two of which one was far ahead. */
export const isEnough = ({ agreement, voters }: Vote): boolean =>
  agreement === 1 && (voters.length >= ENOUGH || voters.some(({ ahead = 0 }) => ahead >= FAR_AHEAD));
