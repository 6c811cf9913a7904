// Word tables in, the recogniser's dictionary out. Only words with a line here can be heard.

import { JOINED } from "./joined.ts";
import { NUMBER_WORDS } from "./numbers.ts";
import { COMMAND_WORDS, PLACE_WORDS, SMALL_WORDS, UNIT_AND_SIGN_WORDS } from "./places.ts";
import { plainWord } from "./plain-word.ts";
import { TRADE_WORDS } from "./trade.ts";
import type { Pronunciations } from "./types.ts";

/** The acoustic model's phones, silence and noise left out. */
export const PHONES =
  "AA AE AH AO AW AY B CH D DH EH ER EY F G HH IH IY JH K L M N NG OW OY P R S SH T TH UH UW V W Y Z ZH".split(" ");

/** One word a phone: a path through such words is any speech at all. */
export const phoneWord = (phone: string): string => `+${phone.toLowerCase()}`;

const ALL_WORDS: Pronunciations = Object.assign(
  Object.create(null) as Record<string, readonly string[]>,
  TRADE_WORDS,
  PLACE_WORDS,
  UNIT_AND_SIGN_WORDS,
  COMMAND_WORDS,
  SMALL_WORDS,
  NUMBER_WORDS,
  Object.fromEntries(PHONES.map((phone) => [phoneWord(phone), [phone]])),
);

/** How `word` (role mark or not) is said; undefined when the dictionary has no line for it. */
export function pronunciationsOf(word: string): readonly string[] | undefined {
  const plain = plainWord(word);
  const parts = JOINED.get(plain);
  if (parts === undefined) return ALL_WORDS[plain];
  const ways = saidAs(parts.join(" ")).map((phones) => phones.join(" "));
  return ways.length === 0 ? undefined : ways;
}

/** Every way to say a text of one word or more, as phones, the usual one first; none where a word of it has no line. */
export const saidAs = (text: string): readonly (readonly string[])[] =>
  text
    .split(" ")
    .reduce<readonly (readonly string[])[]>(
      (ways, word) => ways.flatMap((way) => (pronunciationsOf(word) ?? []).map((phones) => [...way, ...phones.split(" ")])),
      [[]],
    );

/** Phones of the usual way to say a text of one word or more; 0 when a word of it has no line. */
export const phonesIn = (text: string): number => saidAs(text)[0]?.length ?? 0;

/** Whether every word of `text` has a line: a name without one cannot be heard, and would make the recogniser refuse the grammar. */
export const isSayable = (text: string): boolean => text.split(" ").every((word) => pronunciationsOf(word) !== undefined);

/** Dictionary text for the words of a grammar, alternatives numbered: `thou TH AW`. Throws on a word without a line. */
export function dictionaryFor(words: Iterable<string>): string {
  const lines: string[] = [];
  for (const word of words) {
    const said = pronunciationsOf(word);
    if (said === undefined) throw new Error(`Expected a pronunciation for the word "${plainWord(word)}", got none`);
    said.forEach((phones, index) => {
      lines.push(`${word}${index === 0 ? "" : `(${index + 1})`} ${phones}`);
    });
  }
  return `${lines.join("\n")}\n`;
}

/** The dictionary of every word with every role, so that one loaded model serves every grammar. */
export function fullDictionary(): string {
  const words = [...Object.keys(ALL_WORDS), ...JOINED.keys()].filter((word) => pronunciationsOf(word) !== undefined);
  return dictionaryFor(words.flatMap((word) => (word.startsWith("+") ? [word] : [word, `${word}~v`, `${word}~p`])));
}
