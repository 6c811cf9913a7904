// A run of number words -> the ways to share it out between places and values. In go tokens, out come a few roles.
import { ZERO } from "../numbers/decimal.ts";
import { figureOf, READ_OUT } from "../numbers/figure.ts";
import { groupAt } from "../numbers/groups.ts";
import { unitAt } from "../numbers/unitAt.ts";
import { oneUnitAt, valueAt, valueWith } from "../numbers/value.ts";
import type { Noun, Token, ValueExpr } from "../types.ts";
import { type Element, type Roles, valueElement } from "./elements.ts";
import { listOf, readOuts } from "./listOf.ts";
import { nounOf } from "./nounOf.ts";
import { runEnd, startsRun } from "./runSpan.ts";

/** Highest number a place may have (head studs count furthest). */
const LAST_PLACE = 32;

function placeAt(tokens: readonly Token[], i: number, noun: Noun | undefined): Element | undefined {
  const group = groupAt(tokens, i, false);
  if (group === undefined || !group.single || group.to !== i + 1) return undefined;
  const n = Number(group.text);
  return n >= 1 && n <= LAST_PLACE ? { t: "place", noun, n, from: i, to: i + 1 } : undefined;
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
  // "one half tenths" is doubtful, not place one and half a tenth.
  if (next?.t === "half" && noun === undefined && tokens[i]?.text === "one") return 6;
  const hundreds = (next?.t === "ten" || next?.t === "teen") && tokens[i]?.sense.num?.t === "digit";
  return i === 0 && noun === undefined && hundreds ? 2 : 0;
}

/** Nouns that a number after them always counts. */
const STRICT_NOUNS: ReadonlySet<Noun> = new Set(["cylinder", "number", "main", "rod", "nut"]);

const withFlag = (expr: ValueExpr | undefined, flag: string | undefined): ValueExpr | undefined =>
  expr === undefined || flag === undefined ? expr : { ...expr, flags: [...expr.flags, flag] };

/** A number run and what stands around it. */
interface Run {
  readonly tokens: readonly Token[];
  readonly from: number;
  readonly to: number;
  readonly noun: Noun | undefined;
  readonly prep: boolean;
  readonly place: Element | undefined;
  /** What speaks against the run being a value: a noun that wants it as its number. */
  readonly valueCost: number;
}

const roles = (elements: readonly Element[] | undefined, cost: number): Roles[] =>
  elements === undefined ? [] : [{ elements, cost }];
const one = (expr: ValueExpr | undefined): Element[] | undefined => (expr === undefined ? undefined : [valueElement(expr)]);

/** The run as one value, or as several. */
function asValues(run: Run): Roles[] {
  const { tokens, from, to, noun, place, valueCost } = run;
  const swallowed = noun !== undefined && STRICT_NOUNS.has(noun) && place !== undefined && to > from + 1;
  const whole = withFlag(valueAt(tokens, from, to), swallowed ? "place_swallowed" : undefined);
  const out = [...roles(one(whole), valueCost), ...roles(one(thousandAsThou(tokens, from, to)), valueCost + 1)];
  if (whole !== undefined && to - from === 1) return out;
  return [...out, ...roles(listOf(tokens, from, to), valueCost + 2), ...roles(readOuts(tokens, from, to), valueCost)];
}

/** "one nine nine eight half a thou": a read-out, and half a unit of something else, with no pause heard between. */
function halfApart({ tokens, from, to }: Run, first: number): Element[] | undefined {
  const last = to - 1;
  if (tokens[last]?.sense.num?.t !== "half" || tokens[to]?.sense.kind !== "article") return undefined;
  const end = tokens[last - 1]?.sense.kind === "and" ? last - 1 : last;
  const half = valueAt(tokens, last, to);
  const figure = end > first ? figureOf(tokens, first, end, false) : undefined;
  if (figure === undefined || figure.text.length < READ_OUT || half?.parts[0]?.unit === undefined) return undefined;
  const size = valueElement(valueWith(tokens, first, end, figure, undefined));
  const place = first > from ? placeAt(tokens, from, nounOf(tokens, from)) : undefined;
  return place === undefined ? [size, valueElement(half)] : [place, size, valueElement(half)];
}

/** Values with the place said before them. */
function behind(place: Element, elements: Element[] | undefined): Element[] | undefined {
  return elements && [place, ...elements];
}

/** The run's first word as a place, with what follows it as values. */
function asPlace(run: Run): Roles[] {
  const { tokens, from, to, noun, prep, place, valueCost } = run;
  if (place === undefined) return [];
  if (to === from + 1) return unitAt(tokens, to, false) === undefined ? roles([place], noun === undefined && !prep ? 1 : 0) : [];
  if (tokens[from + 1]?.sense.kind === "and") {
    const second = placeAt(tokens, from + 2, noun);
    return second !== undefined && to === from + 3 ? roles([place, second], 1) : [];
  }
  const cost = placeCost(tokens, from, noun ?? (prep ? "number" : undefined), valueCost);
  // "one nine" said alone may be place one and nine, or one point nine.
  const lone = from === 0 && noun === undefined && to === from + 2 && tokens[from + 1]?.sense.num?.t === "digit";
  const rest = valueAt(tokens, from + 1, to);
  const doubted = withFlag(rest, lone && rest?.parts[0]?.unit === undefined ? "place_swallowed" : undefined);
  return [
    ...roles(behind(place, one(doubted)), cost),
    ...roles(behind(place, one(thousandAsThou(tokens, from + 1, to))), 1),
    ...roles(behind(place, listOf(tokens, from + 1, to)), 2),
    ...roles(behind(place, readOuts(tokens, from + 1, to)), 0),
  ];
}

/** The ways to read the number run at i, or undefined when none starts there. */
export function rolesAt(tokens: readonly Token[], i: number): readonly Roles[] | undefined {
  // "dead on twelve thou" is twelve, exactly; alone it is nothing between the two.
  if (tokens[i]?.sense.sign === "even" && tokens[i + 1]?.sense.num === undefined)
    return roles(one(evenAt(i, tokens[i]?.text ?? "")), 0);
  const unit = oneUnitAt(tokens, i);
  if (unit !== undefined) return roles(one(unit), 0);
  if (!startsRun(tokens, i)) return undefined;
  const noun = nounOf(tokens, i);
  const place = placeAt(tokens, i, noun);
  const prep = tokens[i - 1]?.sense.kind === "prep";
  const valueCost = noun !== undefined && place !== undefined ? 4 : prep && tokens[i - 1]?.text === "on" ? 3 : 0;
  const run: Run = { tokens, from: i, to: runEnd(tokens, i), noun, prep, place, valueCost };
  const halves = [...roles(halfApart(run, i), valueCost), ...(place === undefined ? [] : roles(halfApart(run, i + 1), 0))];
  const out = [...asValues(run), ...asPlace(run), ...halves];
  return out.length === 0 ? undefined : out;
}
