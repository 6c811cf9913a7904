// The words of a brief command and what they cost in, whether talk was bent to it out.
import { phonesIn } from "../words/dictionary.ts";

/** What a brief command that fits costs a second at most, in a voice that is known. */
export const FAIR_COMMAND = 400;

/**
 * A command of more than so many phones must not cost more: of 387 scraps of talk ("it was", "at half") in
 * three tuning voices in noise at 10 dB six were such commands ("finished", "scratch that") that cost more, of 200 right ones one
 * ("take a photo"). Shorter ones ("done", "wrong", "undo") cost more in every voice.
 */
const SHORT_PHONES = 4;

/** Whether a brief command of a known voice costs more a second than one of so many sounds would. */
export function isOddCommand(words: readonly string[], strangeness: number): boolean {
  return strangeness > FAIR_COMMAND && phonesIn(words.join(" ")) > SHORT_PHONES;
}
