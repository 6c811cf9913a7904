// Recognised words with their roles in, the sentence as the parser reads it out.

import { PLACE } from "./grammar/places.ts";
import { VALUE } from "./grammar/values.ts";
import { plainWord } from "./words/plain-word.ts";

/** A stand-in for speech that no grammar has, as after "note". */
export const isPhoneWord = (word: string): boolean => word.startsWith("+");

/** A note in the speaker's own words, of which none but the first is in the grammar. */
export const isFreeNote = ({ text }: { readonly text: string }): boolean => text === "note";

/** Whether a word (with its role) is part of a figure. */
export const isFigure = (word: string): boolean => word.endsWith(VALUE);

const role = (word: string) => (word.endsWith(PLACE) ? "place" : isFigure(word) ? "value" : "name");

/** Join words; a comma stands where the grammar goes from a place to a value or back, as a speaker's pause would. */
export function sentenceOf(decoded: readonly string[]): string {
  const words = decoded.filter((word) => !isPhoneWord(word));
  let text = "";
  words.forEach((word, index) => {
    const before = index === 0 ? undefined : role(words[index - 1] ?? "");
    const now = role(word);
    const turn = (before === "place" && now === "value") || (before === "value" && now === "place");
    text += `${turn ? "," : ""}${index === 0 ? "" : " "}${plainWord(word)}`;
  });
  return text;
}
