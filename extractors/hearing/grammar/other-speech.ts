// Heard words in, the small grammar of them and of any other speech in their place out.
import { GRAMMAR_WEIGHT } from "../engine/decoder.ts";
import { PHONES, phoneWord } from "../words/dictionary.ts";

/**
 * Sphinx FSG text of the sentence `heard` (words with roles), and of any sounds of speech in place of any of its words, which cost
 * `dearer` more whenever they begin (natural-log units). One loop of sounds serves for all words: it may lead back as well, to words that
 * were said already, which is other speech too.
 */
export function otherSpeechFsg(heard: readonly string[], dearer: number): string {
  const end = heard.length;
  const [first, later] = [end + 1, end + 2];
  const price = Math.exp(-dearer / GRAMMAR_WEIGHT).toPrecision(4);
  return [
    "FSG_BEGIN other",
    `NUM_STATES ${end + 3}`,
    "START_STATE 0",
    `FINAL_STATE ${end}`,
    ...heard.flatMap((word, at) => [
      `TRANSITION ${at} ${at + 1} 1 ${word}`,
      `TRANSITION ${at} ${first} ${price}`,
      `TRANSITION ${later} ${at + 1} 1`,
    ]),
    ...PHONES.map(phoneWord).flatMap((phone) => [
      `TRANSITION ${first} ${later} 1 ${phone}`,
      `TRANSITION ${later} ${later} 1 ${phone}`,
    ]),
    "FSG_END",
    "",
  ].join("\n");
}
