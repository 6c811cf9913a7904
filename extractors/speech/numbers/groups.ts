// Number words into cardinal groups: "three eighty eight four" is 3, 88, 4. In go tokens, out come digit groups.
import type { Atom, Token } from "../types.ts";

/** One cardinal said in one breath, or a run of figures. */
export interface Group {
  /** Its digits as they would be written: "88", "00", "1200". */
  readonly text: string;
  readonly from: number;
  readonly to: number;
  /** Said as a single small number, so it may count cylinders. */
  readonly single: boolean;
}

const atomAt = (tokens: readonly Token[], i: number): Atom | undefined => tokens[i]?.sense.num;

/** Value of tens and units at i, and where it ends. */
function below100(tokens: readonly Token[], i: number): { v: number; to: number } | undefined {
  const a = atomAt(tokens, i);
  if (a === undefined) return undefined;
  if (a.t === "digit" || a.t === "teen") return { v: a.v, to: i + 1 };
  if (a.t !== "ten") return undefined;
  const b = atomAt(tokens, i + 1);
  if (b?.t === "digit" && b.v > 0 && tokens[i + 1]?.pause !== true) return { v: a.v + b.v, to: i + 2 };
  return { v: a.v, to: i + 1 };
}

/** Skip "and" inside a cardinal when a number follows it. */
function afterAnd(tokens: readonly Token[], i: number): number {
  return tokens[i]?.sense.kind === "and" && tokens[i + 1]?.sense.num !== undefined ? i + 1 : i;
}

/** A cardinal with hundreds: "eight hundred and eighty one", "a hundred", "twenty two hundred". */
function below10000(tokens: readonly Token[], i: number): { v: number; to: number; single: boolean } | undefined {
  const first = tokens[i]?.sense.kind === "article" ? { v: 1, to: i + 1 } : below100(tokens, i);
  const start = first ?? (atomAt(tokens, i)?.t === "hundred" ? { v: 1, to: i } : undefined);
  if (start === undefined) return undefined;
  if (atomAt(tokens, start.to)?.t !== "hundred" || start.v === 0) {
    return first !== undefined && tokens[i]?.sense.kind !== "article" ? { ...first, single: first.to === i + 1 } : undefined;
  }
  const hundreds = start.v * 100;
  const next = afterAnd(tokens, start.to + 1);
  const rest = below100(tokens, next);
  // "eight hundred half": the half is no part of the cardinal, nor is a zero said after it.
  if (rest === undefined || rest.v === 0 || tokens[next]?.pause === true) return { v: hundreds, to: start.to + 1, single: false };
  return { v: hundreds + rest.v, to: rest.to, single: false };
}

/**
 * The group at i. `thousands` lets "two thousand and thirty" be one number; on the bench a thousand that ends the run may
 * instead be a thou that was misheard, so callers choose.
 */
export function groupAt(tokens: readonly Token[], i: number, thousands: boolean): Group | undefined {
  const a = atomAt(tokens, i);
  if (a?.t === "figures") {
    return a.v.includes(".") ? undefined : { text: a.v, from: i, to: i + 1, single: a.v.length <= 2 };
  }
  if (a?.t === "repeat") {
    const b = atomAt(tokens, i + 1);
    if (b?.t === "digit" || b?.t === "teen") return { text: String(b.v).repeat(a.v), from: i, to: i + 2, single: false };
    return undefined;
  }
  const low = below10000(tokens, i);
  const bare = low === undefined && a?.t === "thousand";
  if (low === undefined && !bare) return undefined;
  const v = low?.v ?? 1;
  const to = low?.to ?? i;
  if (thousands && atomAt(tokens, to)?.t === "thousand" && v > 0) {
    const next = afterAnd(tokens, to + 1);
    const rest = tokens[next]?.pause === true ? undefined : below10000(tokens, next);
    const whole = v * 1000 + (rest === undefined || rest.v === 0 ? 0 : rest.v);
    return { text: String(whole), from: i, to: rest === undefined || rest.v === 0 ? to + 1 : rest.to, single: false };
  }
  if (low === undefined) return undefined;
  return { text: String(v), from: i, to, single: low.single };
}
