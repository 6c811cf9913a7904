// Whole and decimal numbers of general English: "two hundred and two thousand", "nine point nought four", "one fifty".
import { groupAt } from "../numbers/groups.ts";
import { SCALES } from "../vocabulary/generalUnits.ts";
import { generalFraction, type Piece } from "./fraction.ts";
import type { GeneralWord } from "./words.ts";

/** No number has more words than this. */
const LONGEST = 16;
const STOP = { kind: "filler" } as const;

/** Words with the "and" before a fraction taken out of the cardinal's reach ("a hundred and | three quarters"). */
function fenced(words: readonly GeneralWord[], i: number): readonly GeneralWord[] {
  for (let j = i; j < words.length && j < i + LONGEST; j++) {
    const word = words[j] as GeneralWord;
    if (word.sense.kind === "and") {
      if (generalFraction(words, j + 1) !== undefined) {
        const out = [...words];
        out[j] = { ...word, sense: STOP };
        return out;
      }
    } else if (word.sense.num === undefined && word.sense.kind !== "article") break;
  }
  return words;
}

const isDigit = (word: GeneralWord | undefined): boolean => word?.sense.num?.t === "digit";

/** Digits after a point: one by one, or a number said whole ("point seventy one"). */
function tailAt(words: readonly GeneralWord[], i: number): { text: string; to: number } | undefined {
  let text = "";
  let at = i;
  while (at < words.length) {
    const word = words[at] as GeneralWord;
    if (at > i && word.pause) break;
    const group = groupAt(words, at, false);
    if (group === undefined) break;
    // "point two hundred thirty-six" is no string of digits.
    if (group.text.length > 2) return undefined;
    text += group.text;
    at = group.to;
    if (at > i + 1 && !isDigit(words[at - 1]) && at < words.length && !isDigit(words[at])) break;
  }
  return text === "" ? undefined : { text, to: at };
}

/** The number at i, or undefined; `broken` when number words stand there that make no one number. */
export function cardinalAt(all: readonly GeneralWord[], i: number): Piece | "broken" | undefined {
  const words = fenced(all, i);
  const start = words[i]?.sense.kind === "article" && isLarge(words[i + 1]) ? i + 1 : i;
  const point = words[start]?.sense.num?.t === "point" && words[start + 1]?.sense.num !== undefined;
  const group = point ? undefined : groupAt(words, start, true);
  if (group === undefined && !point)
    return isNumberWord(words[i]) && words[i]?.text !== "point" && words[i]?.text !== "dot" ? "broken" : undefined;
  let value = group === undefined ? 0 : Number(group.text);
  let to = group?.to ?? start;
  if (words[to]?.sense.num?.t === "point" && words[to + 1]?.sense.num !== undefined && words[to]?.pause !== true) {
    const tail = tailAt(words, to + 1);
    if (tail === undefined) return "broken";
    value = Number(`${value}.${tail.text}`);
    to = tail.to;
    if (words[to]?.sense.num?.t === "thousand") {
      value = Number((value * 1000).toPrecision(15));
      to++;
    }
  } else if (group !== undefined) {
    const more = impliedHundred(words, group.text, to);
    if (more !== undefined) ({ value, to } = more);
    else if (isTens(words[start]) && words[to]?.sense.kind === "and" && isDigit(words[to + 1]) && group.to === start + 1) {
      value += Number(groupAt(words, to + 1, false)?.text ?? 0);
      to += 2;
    }
  }
  const scale = SCALES[words[to]?.text ?? ""];
  if (scale !== undefined) {
    value *= scale;
    to++;
  }
  const next = words[to];
  const oh = next?.text === "o" || next?.text === "oh";
  if (next !== undefined && (isNumberWord(next) || oh) && !next.pause) return "broken";
  return { value, to };
}

const isTens = (word: GeneralWord | undefined): boolean => word?.sense.num?.t === "ten";
const isLarge = (word: GeneralWord | undefined): boolean => word?.sense.num?.t === "hundred" || word?.sense.num?.t === "thousand";

/** Whether a word is part of a number by itself. */
export function isNumberWord(word: GeneralWord | undefined): boolean {
  return word?.sense.num !== undefined && word.sense.num.t !== "point" && !["o", "oh"].includes(word.text);
}

/** "one fifty", "two fifty five": a hundred is understood. */
function impliedHundred(words: readonly GeneralWord[], text: string, to: number): Piece | undefined {
  if (text.length !== 1 || text === "0" || words[to]?.pause === true) return undefined;
  const low = groupAt(words, to, false);
  if (low === undefined || low.text.length !== 2 || words[to]?.sense.num?.t === "digit") return undefined;
  const value = Number(text) * 100 + Number(low.text);
  return { value, to: low.to };
}
