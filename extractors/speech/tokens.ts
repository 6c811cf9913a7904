// Words into tokens: each word or phrase with everything it can mean, longest phrase first.

import { LEXICON, type Node } from "./lexicon.ts";
import type { Sense, Token, Word } from "./types.ts";
import { isFigure } from "./words.ts";

const NOTHING: Sense = {};

/** Senses of a word written in figures, kept so that one utterance's figures cost one object each. */
function figureSense(text: string): Sense {
  const slash = text.indexOf("/");
  if (slash > 0) return { num: { t: "ratio", n: Number(text.slice(0, slash)), d: Number(text.slice(slash + 1)) } };
  return { num: { t: "figures", v: text } };
}

/** Look every word up, taking the longest phrase of the lexicon at each place. `swap` gives other words for some. */
export function toTokens(words: readonly Word[]): Token[] {
  const tokens: Token[] = [];
  let i = 0;
  while (i < words.length) {
    const word = words[i] as Word;
    let node: Node | undefined = LEXICON.get(word.text);
    let best: Sense | undefined;
    let bestEnd = i;
    for (let j = i; node !== undefined; ) {
      if (node.sense !== undefined && !(j > i && isArticle(words, j))) {
        best = node.sense;
        bestEnd = j;
      }
      j++;
      const next: Word | undefined = words[j];
      // A phrase does not run over a pause.
      if (next === undefined || next.pause || node.next === undefined) break;
      node = node.next.get(next.text);
    }
    const end = words[bestEnd] as Word;
    if (best !== undefined) {
      const text = bestEnd === i ? word.text : joined(words, i, bestEnd);
      tokens.push({ text, start: word.start, end: end.end, pause: word.pause, sense: best, unknown: false });
    } else if (isFigure(word.text)) {
      tokens.push({
        text: word.text,
        start: word.start,
        end: word.end,
        pause: word.pause,
        sense: figureSense(word.text),
        unknown: false,
      });
    } else {
      tokens.push({ text: word.text, start: word.start, end: word.end, pause: word.pause, sense: NOTHING, unknown: true });
    }
    i = bestEnd + 1;
  }
  return tokens.some((token) => token.text === "a") ? withLetters(tokens) : tokens;
}

const LETTER_A: Sense = {
  slots: [
    ["nut", "a"],
    ["side", "a"],
  ],
};

/** "a" before a number or at an end is no article but the letter: "A twelve thou, B twelve thou". */
function withLetters(tokens: Token[]): Token[] {
  return tokens.map((token, i) => {
    if (token.text !== "a") return token;
    const next = tokens[i + 1];
    const num = next?.sense.num?.t;
    const before = tokens[i - 1]?.sense;
    const counted = before?.num !== undefined || before?.noun !== undefined || token.pause;
    const ends = (next === undefined || next.pause) && before !== undefined && counted;
    const letter = num === "digit" || num === "teen" || num === "ten" || num === "figures";
    return ends || (letter && counted) ? { ...token, sense: LETTER_A } : token;
  });
}

/** "side a" is a side, but "ring side a thou" has an article before its unit. */
function isArticle(words: readonly Word[], j: number): boolean {
  if (words[j]?.text !== "a") return false;
  const sense = LEXICON.get(words[j + 1]?.text ?? "")?.sense;
  return sense?.unit !== undefined || sense?.num?.t === "half" || sense?.num?.t === "quarter" || sense?.num?.t === "den";
}

function joined(words: readonly Word[], from: number, to: number): string {
  let text = (words[from] as Word).text;
  for (let k = from + 1; k <= to; k++) text += ` ${(words[k] as Word).text}`;
  return text;
}
