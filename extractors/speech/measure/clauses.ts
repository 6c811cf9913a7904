// An element list cut into clauses, one a value: each with the words that speak of it.
import type { Place } from "../../../shared/places/places.ts";
import type { Token, ValueExpr } from "../types.ts";
import type { Element } from "./elements.ts";
import type { PlaceNumber } from "./place.ts";

export interface Clause {
  readonly value: ValueExpr;
  /** A second figure: a force's length, a bend's length. */
  readonly over: ValueExpr | undefined;
  readonly words: readonly number[];
  readonly numbers: readonly PlaceNumber[];
  /** A slot its place in a list gives it. */
  readonly given?: Place;
  /** Nothing but the value was said for it. */
  readonly bare: boolean;
  /** A pause stands right before the value. */
  readonly from: number;
  readonly to: number;
}

/** How words between two values are shared: all to the next, all to the one before, or parted at the pause. */
export type Style = "next" | "before" | "pause";

const LINKS = new Set(["at", "in", "over", "across", "per", "for"]);

type ValueElement = Extract<Element, { t: "value" }>;

/** Values that are the second figure of the value before them: only a link word stands between. */
function overs(elements: readonly Element[], tokens: readonly Token[]): Map<number, number> {
  const pairs = new Map<number, number>();
  for (let k = 1; k + 1 < elements.length; k++) if (isLengthFirst(elements, tokens, k)) pairs.set(k + 1, k);
  if (pairs.size > 0) return pairs;
  let last = -1;
  for (let k = 0; k < elements.length; k++) {
    const element = elements[k] as Element;
    if (element.t === "value") {
      if (last >= 0 && !pairs.has(last) && linked(elements, tokens, last, k)) pairs.set(last, k);
      last = k;
    } else if (element.t === "place") last = -1;
  }
  return pairs;
}

/** Units of a force, which a length may come before: "at one and three quarters, forty-seven pounds". */
const FORCES: ReadonlySet<string | undefined> = new Set(["pound", "lbf", "N"]);

/** A length behind its link word, and the force at that length right after it. */
function isLengthFirst(elements: readonly Element[], tokens: readonly Token[], k: number): boolean {
  const length = elements[k];
  const force = elements[k + 1];
  const link = elements[k - 1];
  if (length?.t !== "value" || force?.t !== "value" || link?.t !== "word" || !LINKS.has(tokens[link.from]?.text ?? ""))
    return false;
  const unit = length.expr.parts[0]?.unit;
  return (unit === undefined || unit === "in" || unit === "mm") && FORCES.has(force.expr.parts[0]?.unit);
}

function linked(elements: readonly Element[], tokens: readonly Token[], a: number, b: number): boolean {
  if (b - a < 2 || b - a > 3) return false;
  let link = false;
  for (let k = a + 1; k < b; k++) {
    const token = tokens[(elements[k] as Element).from] as Token;
    if (LINKS.has(token.text)) link = true;
    else if (token.sense.sign === undefined && token.sense.kind !== "filler" && token.sense.feat === undefined) return false;
  }
  return link;
}

/** Whether the text pauses before the element. */
const pauses = (tokens: readonly Token[], element: Element | undefined): boolean =>
  element !== undefined && tokens[element.from]?.pause === true;

/** First element after value `a` that belongs to the next value, by style. */
function cut(elements: readonly Element[], tokens: readonly Token[], a: number, b: number, style: Style): number {
  // A sign said right after a value is that value's.
  let first = a + 1;
  while (first < b && !pauses(tokens, elements[first]) && isSign(tokens, elements[first])) first++;
  if (style === "next") return first;
  if (style === "before") return b;
  for (let k = b; k > a; k--) if (pauses(tokens, elements[k])) return Math.max(k, first);
  return first;
}

const isSign = (tokens: readonly Token[], element: Element | undefined): boolean =>
  element?.t === "word" && tokens[element.from]?.sense.sign !== undefined && tokens[element.from]?.sense.part === undefined;

/** Cut an element list into clauses; empty when it has no value. */
export function clausesOf(elements: readonly Element[], tokens: readonly Token[], style: Style): Clause[] {
  const pairs = overs(elements, tokens);
  const seconds = new Set(pairs.values());
  const at: number[] = [];
  elements.forEach((element, k) => {
    if (element.t === "value" && !seconds.has(k)) at.push(k);
  });
  const out: Clause[] = [];
  let from = 0;
  at.forEach((k, n) => {
    const nextValue = at[n + 1];
    const second = pairs.get(k);
    const to = nextValue === undefined ? elements.length : cut(elements, tokens, second ?? k, nextValue, style);
    out.push(clause(elements, tokens, from, to, k, second));
    from = to;
  });
  return out;
}

function clause(
  elements: readonly Element[],
  tokens: readonly Token[],
  from: number,
  to: number,
  k: number,
  second: number | undefined,
): Clause {
  const words: number[] = [];
  const numbers: PlaceNumber[] = [];
  const value = elements[k] as ValueElement;
  let bare = true;
  let first = value.from;
  let last = value.to;
  for (let j = from; j < to; j++) {
    const element = elements[j] as Element;
    // "over six inches": the link is no sign.
    if (second !== undefined && j > k && j < second && LINKS.has((tokens[element.from] as Token).text)) continue;
    if (element.t === "word") {
      words.push(element.from);
      const { sense, unknown } = tokens[element.from] as Token;
      const tells = sense.feat !== undefined || sense.slots !== undefined || sense.noun !== undefined || sense.part !== undefined;
      if (tells) bare = false;
      if (tells || sense.sign !== undefined || unknown) {
        first = Math.min(first, element.from);
        last = Math.max(last, element.to);
      }
    } else if (element.t === "place") {
      numbers.push({ noun: element.noun, n: element.n, at: element.from });
      bare = false;
      first = Math.min(first, element.from);
      last = Math.max(last, element.to);
    } else last = Math.max(last, element.to);
  }
  const over = second === undefined ? undefined : (elements[second] as ValueElement).expr;
  return { value: value.expr, over, words, numbers, bare, from: first, to: last };
}
