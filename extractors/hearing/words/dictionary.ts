// How words are said: only a word with a line here can be heard.

import { PHONES } from "../acoustic/phones.ts";
import { NUMBER_WORDS } from "./numbers.ts";
import { COMMAND_WORDS, PLACE_WORDS, SMALL_WORDS, UNIT_AND_SIGN_WORDS } from "./places.ts";
import { plainWord } from "./plain-word.ts";
import { STEP_WORDS } from "./steps.ts";
import { TRADE_WORDS } from "./trade.ts";
import type { Pronunciations } from "./types.ts";

/** One word a phone: a path through such words is any speech at all. */
export const phoneWord = (phone: string): string => `+${phone.toLowerCase()}`;

const ALL_WORDS: Pronunciations = Object.assign(
  Object.create(null) as Record<string, readonly string[]>,
  STEP_WORDS,
  TRADE_WORDS,
  PLACE_WORDS,
  UNIT_AND_SIGN_WORDS,
  COMMAND_WORDS,
  SMALL_WORDS,
  NUMBER_WORDS,
  Object.fromEntries(PHONES.map((phone) => [phoneWord(phone), [phone]])),
);

/** How `word` (role mark or not) is said; undefined when the dictionary has no line for it. */
export const pronunciationsOf = (word: string): readonly string[] | undefined => ALL_WORDS[plainWord(word)];

const said = new Map<string, readonly (readonly string[])[]>();

/** Every way to say a text of one word or more, as phones, the usual one first; none where a word of it has no line. */
export function saidAs(text: string): readonly (readonly string[])[] {
  const known = said.get(text) ?? waysToSay(text);
  said.set(text, known);
  return known;
}

const waysToSay = (text: string): readonly (readonly string[])[] =>
  text
    .split(" ")
    .reduce<readonly (readonly string[])[]>(
      (ways, word) => ways.flatMap((way) => (pronunciationsOf(word) ?? []).map((phones) => [...way, ...phones.split(" ")])),
      [[]],
    );

/** Whether every word of `text` has a line: a name without one cannot be heard. */
export const isSayable = (text: string): boolean => text.split(" ").every((word) => pronunciationsOf(word) !== undefined);
