// Values said back to back without a pause: in go number tokens, out come the values one by one.
import { figureOf } from "../numbers/figure.ts";
import { groupAt } from "../numbers/groups.ts";
import { valueAt, valueWith } from "../numbers/value.ts";
import type { Token, ValueExpr } from "../types.ts";
import { type Element, valueElement } from "./elements.ts";

/** One past the natural number that starts at i: a cardinal, its decimals, or the fraction joined to it by "and". */
function numberEnd(tokens: readonly Token[], i: number, to: number): number {
  let end = groupAt(tokens, i, false)?.to ?? i + 1;
  if (tokens[end]?.sense.num?.t === "point") {
    end++;
    while (end < to && tokens[end]?.sense.num?.t === "digit") end++;
    return end;
  }
  if (tokens[end]?.sense.kind !== "and") return end;
  const next = tokens[end + 1]?.sense;
  // Only a fraction is added to a member of a list; an "and" before a number parts the list.
  if (next?.kind === "article") return end + 3;
  return next?.num?.t === "half" ? end + 2 : end;
}

/** Each value the longest natural number; undefined when they are not two or more. */
export function listOf(tokens: readonly Token[], from: number, to: number): Element[] | undefined {
  const out: Element[] = [];
  let i = from;
  while (i < to) {
    const end = numberEnd(tokens, i, to);
    if (end > to) return undefined;
    const expr = end === to ? valueAt(tokens, i, end) : bare(tokens, i, end);
    if (expr === undefined) return undefined;
    out.push(valueElement(expr));
    i = tokens[end]?.sense.kind === "and" && end + 1 < to ? end + 1 : end;
  }
  return out.length > 1 ? out : undefined;
}

function bare(tokens: readonly Token[], from: number, to: number): ValueExpr | undefined {
  const figure = figureOf(tokens, from, to, false);
  return figure && valueWith(tokens, from, to, figure, undefined);
}

/** Digits of a size read off a gauge to a ten-thousandth. */
const READ_OUT = 5;

/** Five-digit read-outs said back to back. */
export function readOuts(tokens: readonly Token[], from: number, to: number): Element[] | undefined {
  const count = to - from;
  if (count < 2 * READ_OUT || count % READ_OUT !== 0) return undefined;
  const out: Element[] = [];
  for (let i = from; i < to; i++) if (tokens[i]?.sense.num?.t !== "digit") return undefined;
  for (let i = from; i < to; i += READ_OUT) {
    const expr = i + READ_OUT === to ? valueAt(tokens, i, to) : bare(tokens, i, i + READ_OUT);
    if (expr === undefined) return undefined;
    out.push(valueElement(expr));
  }
  return out;
}
