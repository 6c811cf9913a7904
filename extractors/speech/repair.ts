// The sentence as it may have been said: misheard words put back, tried only beside the sentence as it stands.
import type { Word } from "./types.ts";
import { DIGIT_HEARD_AS, GRAVE_REPAIRS, WORD_HEARD_AS } from "./vocabulary/misheard.ts";

export interface Repaired {
  readonly words: readonly Word[];
  /** What was written and what it was read as: "to>two". */
  readonly repairs: readonly string[];
  readonly grave: boolean;
}

const DIGITS = ["oh", "one", "two", "three", "four", "five", "six", "seven", "eight", "nine", "ten"];
/** Longest misheard phrase, in words. */
const LONGEST = 3;

/** Put trade words and digits back where a misheard form stands; undefined when there is none. */
export function repaired(words: readonly Word[], digits: boolean, trade: boolean): Repaired | undefined {
  const out: Word[] = [];
  const repairs: string[] = [];
  let grave = false;
  for (let i = 0; i < words.length; ) {
    const hit = trade ? tradeAt(words, i) : undefined;
    const word = words[i] as Word;
    if (hit !== undefined) {
      const end = (words[hit.to - 1] as Word).end;
      for (const text of hit.said.split(" "))
        out.push({ text, start: word.start, end, pause: word.pause && text === hit.said.split(" ")[0] });
      repairs.push(`${hit.written}>${hit.said}`);
      if (GRAVE_REPAIRS.has(hit.written)) grave = true;
      i = hit.to;
      continue;
    }
    const atom = digits ? DIGIT_HEARD_AS[word.text] : undefined;
    const said = atom === undefined || !("v" in atom) ? undefined : DIGITS[atom.v as number];
    if (said !== undefined && digitMayStand(words, i)) {
      out.push({ ...word, text: said });
      repairs.push(`${word.text}>${said}`);
    } else out.push(word);
    i++;
  }
  return repairs.length === 0 ? undefined : { words: out, repairs, grave };
}

function tradeAt(words: readonly Word[], i: number): { written: string; said: string; to: number } | undefined {
  let text = "";
  let found: { written: string; said: string; to: number } | undefined;
  for (let j = i; j < words.length && j < i + LONGEST; j++) {
    if (j > i && (words[j] as Word).pause) break;
    text = j === i ? (words[j] as Word).text : `${text} ${(words[j] as Word).text}`;
    const said = Object.hasOwn(WORD_HEARD_AS, text) ? WORD_HEARD_AS[text] : undefined;
    if (said !== undefined) found = { written: text, said, to: j + 1 };
  }
  return found;
}

/** "for", "to" and the like are digits only when no article or noun phrase follows them. */
function digitMayStand(words: readonly Word[], i: number): boolean {
  const next = words[i + 1];
  return next === undefined || !PHRASE_STARTS.has(next.text);
}
const PHRASE_STARTS = new Set(["the", "a", "an", "number", "cylinder", "main", "rod", "this", "that", "it", "me", "you", "be"]);
