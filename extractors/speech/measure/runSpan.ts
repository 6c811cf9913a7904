// Where a run of number words begins and ends.
import type { Atom, Token } from "../types.ts";

const isBenchAtom = (a: Atom | undefined): boolean => a !== undefined && !(a.t === "den" && (a.v === 3 || a.v === 5));

/** Whether a number run starts at i. */
export function startsRun(tokens: readonly Token[], i: number): boolean {
  const token = tokens[i];
  if (token === undefined) return false;
  const a = token.sense.num;
  if (a !== undefined) return isBenchAtom(a) && a.t !== "den";
  if (token.sense.kind !== "article") return false;
  const next = tokens[i + 1]?.sense;
  return next?.num?.t === "half" || next?.num?.t === "quarter" || next?.num?.t === "hundred" || isSmallDen(next?.num) || false;
}

const isSmallDen = (a: Atom | undefined): boolean => a?.t === "den" && a.v >= 8;

/** One past the last token of the number run that starts at i. */
export function runEnd(tokens: readonly Token[], i: number): number {
  let j = i + 1;
  for (; j < tokens.length; j++) {
    const token = tokens[j] as Token;
    if (token.pause) break;
    if (isBenchAtom(token.sense.num)) continue;
    const joins = token.sense.kind === "and" || token.sense.kind === "article";
    // "and", "and a" hold a run together only when more of the number follows; "a" alone only before a fraction.
    if (!joins) break;
    const next = tokens[j + 1];
    if (next === undefined || next.pause) break;
    if (token.sense.kind === "and" && (isBenchAtom(next.sense.num) || startsRun(tokens, j + 1))) continue;
    if (token.sense.kind === "article" && startsRun(tokens, j) && tokens[j - 1]?.sense.kind === "and") continue;
    break;
  }
  return j;
}
