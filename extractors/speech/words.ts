// Text into words: in goes what was heard or typed, out come lower-case words and figures with their spans.
import type { Word } from "./types.ts";

/** Longest text read; the rest of a longer one is left unread. */
export const MAX_TEXT = 2000;

// Order matters: "3-7/8" and "3/32nds" before plain figures, figures before words, words before single marks.
const PIECE = /\d+\/\d+(?![\d/])|\d[\d,]*\.\d+|\.\d+|\d[\d,]*\d|\d|[a-zµ]+(?:['’][a-z]+)?|["°#%&]|[,;:.!?\n–—…-]/g;
const ORDINAL_TAIL = /^(?:st|nd|rd|th|ths|nds|s)$/;
const PAUSES = /[,;:.!?\n–—…]/;

/**
 * Split text into words. Hyphens part words ("thirty-five"), figures part from letters ("37ft"), a written ordinal stays
 * whole ("2nd"), a dropped apostrophe-s is dropped ("block's" is "block"), other apostrophes close up ("it's" is "its").
 */
export function toWords(text: string): Word[] {
  const lower = text.length > MAX_TEXT ? text.slice(0, MAX_TEXT).toLowerCase() : text.toLowerCase();
  const words: Word[] = [];
  let pause = false;
  let minus = false;
  PIECE.lastIndex = 0;
  for (let match = PIECE.exec(lower); match !== null; match = PIECE.exec(lower)) {
    const piece = match[0];
    const start = match.index;
    const first = piece.charCodeAt(0);
    if (piece === "-") {
      // A hyphen directly before a figure and after a space is a minus; between words it only joins.
      minus = /\d|\./.test(lower[start + 1] ?? "") && (start === 0 || lower[start - 1] === " ");
      continue;
    }
    if (PAUSES.test(piece)) {
      if (piece.length === 1) {
        pause = true;
        continue;
      }
    }
    const last = words[words.length - 1];
    const end = start + piece.length;
    if (last !== undefined && last.end === start && isFigure(last.text) && ORDINAL_TAIL.test(piece)) {
      words[words.length - 1] = { ...last, text: last.text + piece, end };
      continue;
    }
    if (minus) words.push({ text: "minus", start: start - 1, end: start, pause });
    if (minus) pause = false;
    minus = false;
    const isWord = first > 96;
    words.push({ text: isWord ? plain(piece) : piece.replaceAll(",", ""), start, end, pause });
    pause = false;
  }
  return words;
}

const WHOLE = new Set(["it's", "that's", "there's", "what's", "here's", "let's", "he's", "she's", "i've", "we've", "they've"]);

function plain(word: string): string {
  const at = word.search(/['’]/);
  if (at < 0) return word;
  const straight = word.replace("’", "'");
  if (straight.endsWith("'s") && !WHOLE.has(straight)) return straight.slice(0, -2);
  return straight.replace("'", "");
}

/** Whether a word is written in figures. */
export function isFigure(word: string): boolean {
  const c = word.charCodeAt(0);
  return (c >= 48 && c <= 57) || (c === 46 && word.length > 1);
}
