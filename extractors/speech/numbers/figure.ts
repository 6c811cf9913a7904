// A stretch of number tokens as one figure: cardinal, read-out, decimal, mixed number or fraction.
import type { Atom, Dec, Figure, FigureKind, Token } from "../types.ts";
import { add, decOf, ratio } from "./decimal.ts";
import { groupAt } from "./groups.ts";

const atom = (tokens: readonly Token[], i: number): Atom | undefined => tokens[i]?.sense.num;

interface Fraction {
  readonly dec: Dec;
  readonly to: number;
  /** "half a", "a quarter": said with an article or none, so the unit may follow with another article. */
  readonly bare: boolean;
}

/** A fraction at i: "half", "a quarter", "three quarters", "seven eighths", "a sixteenth", "3/32". */
export function fractionAt(tokens: readonly Token[], i: number): Fraction | undefined {
  let at = i;
  if (tokens[at]?.sense.kind === "article") at++;
  const bare = at > i;
  const a = atom(tokens, at);
  if (a === undefined) return undefined;
  if (a.t === "ratio") {
    const dec = a.d > 0 ? ratio(a.n, a.d) : undefined;
    return dec && { dec, to: at + 1, bare: false };
  }
  if (a.t === "half") return { dec: { n: 5, s: 1 }, to: at + 1, bare: true };
  if (a.t === "quarter") return { dec: { n: 25, s: 2 }, to: at + 1, bare: true };
  if (a.t === "den" && bare) {
    const dec = ratio(1, a.v);
    return dec && { dec, to: at + 1, bare: true };
  }
  const top = groupAt(tokens, at, false);
  if (top === undefined || top.text.length > 2 || bare) return undefined;
  const d = atom(tokens, top.to);
  const below = d === undefined ? 0 : d.t === "half" ? 2 : d.t === "quarter" ? 4 : d.t === "den" ? d.v : 0;
  // "one half" is a fraction; "two half" is not.
  if (below === 0 || (d?.t === "half" && Number(top.text) !== 1 && tokens[top.to]?.text === "half")) return undefined;
  const dec = ratio(Number(top.text), below);
  return dec && { dec, to: top.to + 1, bare: false };
}

/** Digits of consecutive groups, ending before anything that is not a plain digit group. */
function digitRun(
  tokens: readonly Token[],
  from: number,
  to: number,
  thousands: boolean,
): { text: string; to: number; groups: number } {
  let text = "";
  let groups = 0;
  let i = from;
  while (i < to) {
    // A fraction ends the read-out: "three and seven eighths" never starts its fraction here, "two seven eighths" does.
    if (groups > 0 && fractionStart(tokens, i)) break;
    const group = groupAt(tokens, i, thousands);
    if (group === undefined || group.to > to) break;
    text += group.text;
    groups++;
    i = group.to;
  }
  return { text, to: i, groups };
}

function fractionStart(tokens: readonly Token[], i: number): boolean {
  const a = atom(tokens, i);
  if (a?.t === "half" || a?.t === "quarter" || a?.t === "ratio") return true;
  const group = groupAt(tokens, i, false);
  const next = group === undefined ? undefined : atom(tokens, group.to);
  return next?.t === "den" || next?.t === "quarter";
}

/** Digits from which a figure is a size read off a gauge. */
export const READ_OUT = 3;

const isZeroLed = (text: string): boolean => text.length > 1 && text.charCodeAt(0) === 48;

/**
 * Read all of tokens[from, to) as one figure.
 * @returns undefined when the stretch is not one number
 */
export function figureOf(tokens: readonly Token[], from: number, to: number, thousands: boolean): Figure | undefined {
  const alone = fractionAt(tokens, from);
  if (alone?.to === to) return { kind: "fraction", dec: alone.dec, text: "" };
  const written = atom(tokens, from);
  let i = from;
  let text = "";
  let groups = 0;
  let dec: Dec | undefined;
  let kind: FigureKind = "int";
  if (written?.t === "figures" && written.v.includes(".")) {
    text = written.v;
    dec = decOf(text);
    kind = "decimal";
    i = from + 1;
    groups = 1;
  } else {
    const run = digitRun(tokens, from, to, thousands);
    text = run.text;
    groups = run.groups;
    i = run.to;
    if (text !== "") dec = decOf(text);
    if (groups > 1 || isZeroLed(text)) kind = "digits";
    if (atom(tokens, i)?.t === "point" && i < to) {
      const tail = digitRun(tokens, i + 1, to, false);
      if (tail.groups === 0) return undefined;
      text = `${text}.${tail.text}`;
      dec = decOf(text);
      kind = "decimal";
      i = tail.to;
    }
  }
  if (i < to && dec !== undefined && kind !== "decimal") return withFraction(tokens, i, to, dec, text);
  if (dec === undefined || i !== to) return undefined;
  return { kind, dec, text: text.replace(".", "") };
}

/** The fraction that ends a figure: "two and a half", "three seven eighths". */
function withFraction(tokens: readonly Token[], i: number, to: number, whole: Dec, text: string): Figure | undefined {
  const joined = tokens[i]?.sense.kind === "and";
  const fraction = fractionAt(tokens, joined ? i + 1 : i);
  if (fraction === undefined || fraction.to !== to) return undefined;
  // "one nine nine eight, half a thou": the half is the next value's; of a shorter number it may be either's.
  const apart = tokens[to]?.sense.kind === "article" && tokens[to + 1]?.sense.unit !== undefined;
  if (apart && text.length >= READ_OUT) return undefined;
  const doubtful = apart || (!joined && atom(tokens, i)?.t === "half");
  return { kind: "mixed", dec: add(whole, fraction.dec), text, doubtful };
}
