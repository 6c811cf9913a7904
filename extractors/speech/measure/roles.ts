// A run of number words -> the ways to share it out between places and values. In go tokens, out come a few roles.
import { ZERO } from "../numbers/decimal.ts";
import { figureOf } from "../numbers/figure.ts";
import { groupAt } from "../numbers/groups.ts";
import { unitAt } from "../numbers/unitAt.ts";
import { oneUnitAt, valueOf, valueWith } from "../numbers/value.ts";
import type { Atom, Noun, Token, ValueExpr } from "../types.ts";
import type { Element, Roles } from "./elements.ts";

/** Highest number a place may have (head studs count furthest). */
const LAST_PLACE = 32;

const isBenchAtom = (a: Atom | undefined): boolean => a !== undefined && !(a.t === "den" && (a.v === 3 || a.v === 5));

function startsRun(tokens: readonly Token[], i: number): boolean {
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
function runEnd(tokens: readonly Token[], i: number): number {
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

function value(expr: ValueExpr): Element {
  return { t: "value", expr, from: expr.from, to: expr.to };
}

function placeAt(tokens: readonly Token[], i: number, noun: Noun | undefined): Element | undefined {
  const group = groupAt(tokens, i, false);
  if (group === undefined || !group.single || group.to !== i + 1) return undefined;
  const n = Number(group.text);
  return n >= 1 && n <= LAST_PLACE ? { t: "place", noun, n, from: i, to: i + 1 } : undefined;
}

/** Values said one after another without a pause: each the longest natural number. */
function listOf(tokens: readonly Token[], from: number, to: number): Element[] | undefined {
  const out: Element[] = [];
  let i = from;
  while (i < to) {
    const group = groupAt(tokens, i, false);
    let end = group?.to ?? i + 1;
    if (tokens[end]?.sense.num?.t === "point") {
      end++;
      while (end < to && tokens[end]?.sense.num?.t === "digit") end++;
    } else if (tokens[end]?.sense.kind === "and") {
      // Only a fraction is added to a member of a list; the last "and" before a number parts the list.
      const fraction = tokens[end + 1]?.sense.kind === "article" || tokens[end + 1]?.sense.num?.t === "half";
      if (fraction) {
        end += tokens[end + 1]?.sense.kind === "article" ? 3 : 2;
      } else if (figureOf(tokens, i, end, false) !== undefined && end + 1 < to) {
        const expr = valueOf(tokens, i, end);
        if (expr === undefined) return undefined;
        out.push(value(expr));
        i = end + 1;
        continue;
      }
    }
    if (end > to) return undefined;
    const expr = end === to ? valueOf(tokens, i, end) : bare(tokens, i, end);
    if (expr === undefined) return undefined;
    out.push(value(expr));
    i = end;
  }
  return out.length > 1 ? out : undefined;
}

function bare(tokens: readonly Token[], from: number, to: number): ValueExpr | undefined {
  const figure = figureOf(tokens, from, to, false);
  return figure && valueWith(tokens, from, to, figure, undefined);
}

/** "twelve thousand", "12000" for twelve thou. */
function thousandAsThou(tokens: readonly Token[], from: number, to: number): ValueExpr | undefined {
  if (unitAt(tokens, to, false) !== undefined) return undefined;
  const last = tokens[to - 1]?.sense.num;
  const thou = { unit: "thou" as const, to, places: 0, repaired: true, singular: false };
  if (last?.t === "thousand" && to - 1 > from) {
    const figure = figureOf(tokens, from, to - 1, false);
    return figure && { ...valueWith(tokens, from, to, figure, thou), flags: ["thousand"] };
  }
  if (last?.t === "figures" && last.v.length > 3 && last.v.endsWith("000") && to - from === 1) {
    const dec = { n: Number(last.v) / 1000, s: 0 };
    return { ...valueWith(tokens, from, to, { kind: "int", dec, text: String(dec.n) }, thou), flags: ["thousand"] };
  }
  return undefined;
}

/** "size for size", "flush": nothing between the two. */
const evenAt = (i: number, text: string): ValueExpr => ({
  parts: [{ figure: { kind: "int", dec: ZERO, text: "0" }, unit: undefined }],
  from: i,
  to: i + 1,
  repairs: 0,
  flags: /flush|level/.test(text) ? ["even", "flush"] : ["even"],
});

/** What speaks against the first word being a place: a point after it, or the hundreds of "four fifty" with no noun before it. */
function placeCost(tokens: readonly Token[], i: number, noun: Noun | undefined, valueCost: number): number {
  const next = tokens[i + 1]?.sense.num;
  if (next?.t === "point") return valueCost + 3;
  // "three quarter inch" is a fraction sooner than place three and a quarter.
  if (next?.t === "quarter") return 6;
  const hundreds = (next?.t === "ten" || next?.t === "teen") && tokens[i]?.sense.num?.t === "digit";
  return i === 0 && noun === undefined && hundreds ? 2 : 0;
}

/** Nouns that a number after them always counts. */
const STRICT_NOUNS: ReadonlySet<Noun> = new Set(["cylinder", "number", "main", "rod", "nut"]);

const withFlag = (expr: ValueExpr | undefined, flag: string | undefined): ValueExpr | undefined =>
  expr === undefined || flag === undefined ? expr : { ...expr, flags: [...expr.flags, flag] };

export interface Run {
  readonly roles: readonly Roles[];
  readonly to: number;
}

/** Five-digit read-outs said back to back without a pause. */
const READ_OUT = 5;

function readOuts(tokens: readonly Token[], from: number, to: number): Element[] | undefined {
  const count = to - from;
  if (count < 2 * READ_OUT || count % READ_OUT !== 0) return undefined;
  const out: Element[] = [];
  for (let i = from; i < to; i++) if (tokens[i]?.sense.num?.t !== "digit") return undefined;
  for (let i = from; i < to; i += READ_OUT) {
    const expr = i + READ_OUT === to ? valueOf(tokens, i, to) : bare(tokens, i, i + READ_OUT);
    if (expr === undefined) return undefined;
    out.push(value(expr));
  }
  return out;
}

const COUNTED_NOUNS: ReadonlySet<Noun> = new Set(["main", "rod", "crankpin", "journal", "piston", "pin"]);

/** "number two main", "three main": the noun may follow its number when the number ends there. */
function nounAfter(tokens: readonly Token[], i: number): Noun | undefined {
  const next = tokens[i + 1];
  const noun = next?.pause === false ? next.sense.noun : undefined;
  const counted =
    tokens[i - 1]?.sense.noun === "number" || i === 0 || tokens[i]?.pause === true || tokens[i - 1]?.sense.kind === "prep";
  return noun !== undefined && COUNTED_NOUNS.has(noun) && counted && tokens[i + 2]?.sense.num === undefined ? noun : undefined;
}

/** The noun a number counts: "main two", and "main number two" is the main's. */
function nounBefore(tokens: readonly Token[], i: number): Noun | undefined {
  const noun = tokens[i - 1]?.sense.noun;
  if (noun !== "number") return noun;
  return (tokens[i - 1]?.pause === false ? tokens[i - 2]?.sense.noun : undefined) ?? nounAfter(tokens, i) ?? noun;
}

/** The ways to read the number run at i, or undefined when none starts there. */
export function runAt(tokens: readonly Token[], i: number): Run | undefined {
  if (tokens[i]?.sense.sign === "even")
    return { roles: [{ elements: [value(evenAt(i, tokens[i]?.text ?? ""))], cost: 0 }], to: i + 1 };
  const one = oneUnitAt(tokens, i);
  if (one !== undefined) return { roles: [{ elements: [value(one)], cost: 0 }], to: one.to };
  if (!startsRun(tokens, i)) return undefined;
  const end = runEnd(tokens, i);
  const before = tokens[i - 1];
  const noun = tokens[i]?.pause ? nounAfter(tokens, i) : (nounBefore(tokens, i) ?? nounAfter(tokens, i));
  const prep = before?.sense.kind === "prep";
  const roles: Roles[] = [];
  let to = end;
  const push = (elements: readonly Element[] | undefined, cost: number) => {
    if (elements === undefined) return;
    roles.push({ elements, cost });
    to = Math.max(to, elements[elements.length - 1]?.to ?? to);
  };
  const place = placeAt(tokens, i, noun);
  const valueCost = noun !== undefined && place !== undefined ? 4 : prep && before?.text === "on" ? 3 : 0;
  const swallowed = noun !== undefined && STRICT_NOUNS.has(noun) && place !== undefined && end > i + 1;
  const whole = withFlag(valueOf(tokens, i, end), swallowed ? "place_swallowed" : undefined);
  if (whole !== undefined) push([value(whole)], valueCost);
  const thou = thousandAsThou(tokens, i, end);
  if (thou !== undefined) push([value(thou)], valueCost + 1);
  if (whole === undefined || end - i > 1) {
    push(listOf(tokens, i, end), valueCost + 2);
    push(readOuts(tokens, i, end), valueCost);
  }
  if (place !== undefined) {
    if (end === i + 1 && unitAt(tokens, end, false) === undefined) push([place], noun === undefined && !prep ? 1 : 0);
    if (end > i + 1 && tokens[i + 1]?.sense.kind !== "and") {
      const rest = valueOf(tokens, i + 1, end);
      // "three point eight" is one number sooner than place three and point eight.
      if (rest !== undefined) push([place, value(rest)], placeCost(tokens, i, noun ?? (prep ? "number" : undefined), valueCost));
      const restThou = thousandAsThou(tokens, i + 1, end);
      if (restThou !== undefined) push([place, value(restThou)], 1);
      const list = listOf(tokens, i + 1, end);
      if (list !== undefined) push([place, ...list], 2);
      const outs = readOuts(tokens, i + 1, end);
      if (outs !== undefined) push([place, ...outs], 0);
    } else if (tokens[i + 1]?.sense.kind === "and") {
      const second = placeAt(tokens, i + 2, noun);
      if (second !== undefined && end === i + 3) push([place, second], 1);
    }
  }
  return roles.length === 0 ? undefined : { roles, to };
}
