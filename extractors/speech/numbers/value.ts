// A figure with its unit and what is added to it ("two thou and seven tenths", "three inches, eight eighty-one thou").
import type { Figure, Token, UnitWord, ValueExpr, ValuePart } from "../types.ts";
import { add, shift } from "./decimal.ts";
import { figureOf, fractionAt } from "./figure.ts";
import { groupAt } from "./groups.ts";
import { type UnitRead, unitAt } from "./unitAt.ts";

/** Units that may be added after a larger one, largest first. */
const SMALLER: Readonly<Partial<Record<UnitWord, readonly UnitWord[]>>> = {
  in: ["thou", "thousandth", "tenth", "tenthou"],
  thou: ["tenth", "tenthou"],
  thousandth: ["tenth", "tenthou"],
};

const ONE: Figure = { kind: "int", dec: { n: 1, s: 0 }, text: "1" };

function scaled(figure: Figure, read: UnitRead): Figure {
  return read.places === 0 ? figure : { ...figure, dec: shift(figure.dec, read.places) };
}

/** "three ten thousandths" is three of .0001: a ten or hundred standing last before "thousandths" belongs to the unit. */
function tenThousandths(tokens: readonly Token[], from: number, to: number, read: UnitRead): ValueExpr | undefined {
  const last = tokens[to - 1]?.sense.num;
  const scale = last?.t === "teen" && last.v === 10 ? "tenthou" : last?.t === "hundred" ? "hundredthou" : undefined;
  if (read.unit !== "thousandth" || scale === undefined) return undefined;
  const article = to - 1 > from && tokens[to - 2]?.sense.kind === "article";
  const before = article ? ONE : to - 1 > from ? figureOf(tokens, from, to - 1, false) : undefined;
  if (before !== undefined) {
    // "five hundred thousandths" is .500 to most ears and .00005 to some.
    const flags = scale === "hundredthou" ? (Number(before.text) < 20 ? ["hundred_thousandths"] : ["too_fine"]) : [];
    const unit = flags[0] === "hundred_thousandths" ? "thousandth" : scale;
    const figure = flags[0] === "hundred_thousandths" ? figureOf(tokens, from, to, false) : before;
    return figure && { parts: [{ figure, unit }], from, to: read.to, repairs: 0, flags };
  }
  if (scale !== "tenthou") return undefined;
  const ten = figureOf(tokens, from, to, false);
  return ten && { parts: [{ figure: ten, unit: "thousandth" }], from, to: read.to, repairs: 0, flags: ["ten_thousandths"] };
}

/** Less than one of the larger unit: ten tenths would have been said as a thou. */
function isPart(figure: Figure, larger: UnitWord, smaller: UnitWord): boolean {
  const whole = larger === "in" ? (smaller === "tenth" || smaller === "tenthou" ? 10_000 : 1000) : 10;
  return figure.dec.n / 10 ** figure.dec.s < whole;
}

/** What follows a part and is added to it. */
function continuation(tokens: readonly Token[], at: number, unit: UnitWord): { part: ValuePart; to: number } | undefined {
  const joined = tokens[at]?.sense.kind === "and";
  const start = joined ? at + 1 : at;
  const fraction = joined ? fractionAt(tokens, start) : undefined;
  if (fraction !== undefined) {
    const read = unitAt(tokens, fraction.to, true);
    // "a thou and a half": the half is of the unit before it.
    if (read === undefined) return { part: { figure: { kind: "fraction", dec: fraction.dec, text: "" }, unit }, to: fraction.to };
  }
  const smaller = SMALLER[unit];
  // Only inches go on over a pause ("three inches, eight eighty-one thou"); "two thou, eighteen tenths" is two values.
  if (smaller === undefined || (unit !== "in" && tokens[at]?.pause === true)) return undefined;
  let end = start;
  for (let group = groupAt(tokens, end, false); group !== undefined; group = groupAt(tokens, end, false)) {
    if (end > start && tokens[end]?.pause === true) break;
    end = group.to;
    const mixed = tokens[end]?.sense.kind === "and" ? fractionAt(tokens, end + 1) : undefined;
    if (mixed !== undefined && unitAt(tokens, mixed.to, false) !== undefined) end = mixed.to;
  }
  if (fraction !== undefined) end = fraction.to;
  if (end === start) {
    const bare = tokens[start]?.sense.kind === "article" ? unitAt(tokens, start + 1, false) : undefined;
    return bare && smaller.includes(bare.unit) ? { part: { figure: ONE, unit: bare.unit }, to: bare.to } : undefined;
  }
  const figure = figureOf(tokens, start, end, false);
  if (figure === undefined) return undefined;
  const read = unitAt(tokens, end, figure.kind === "fraction");
  if (read !== undefined && read.places === 0 && smaller.includes(read.unit) && isPart(figure, unit, read.unit))
    return { part: { figure, unit: read.unit }, to: read.to };
  // "two inches five eighty and two tenths": after inches a bare number below a thousand is thou.
  const bareThou = unit === "in" && read === undefined && figure.kind !== "fraction" && figure.dec.s === 0 && figure.dec.n < 1000;
  return bareThou && figure.text.length >= 2 ? { part: { figure, unit: "thou" }, to: end } : undefined;
}

/**
 * Read tokens[from, to) as the figure of a value and take the unit and the additions that follow.
 */
export function valueAt(tokens: readonly Token[], from: number, to: number): ValueExpr | undefined {
  const figure = figureOf(tokens, from, to, true);
  const first = figure === undefined ? undefined : unitAt(tokens, to, figure.kind === "fraction");
  if (first !== undefined) {
    const special = tenThousandths(tokens, from, to, first);
    if (special !== undefined) return special;
  }
  if (figure === undefined) return wholeAndTenths(tokens, from, to);
  return valueWith(tokens, from, to, figure, first);
}

/** "one and seven tenths of a thou", "one and seven tenths thou": whole thou and tenths of one. */
function wholeAndTenths(tokens: readonly Token[], from: number, to: number): ValueExpr | undefined {
  const read = unitAt(tokens, to, false);
  const whole = groupAt(tokens, from, false);
  if (read?.unit !== "tenthou" || whole === undefined || tokens[whole.to]?.sense.kind !== "and") return undefined;
  const tenths = figureOf(tokens, whole.to + 1, to, false);
  if (tenths?.kind !== "int" || tenths.dec.n > 9) return undefined;
  const dec = add({ n: Number(whole.text), s: 0 }, { n: tenths.dec.n, s: 1 });
  return { parts: [{ figure: { kind: "mixed", dec, text: "" }, unit: "thou" }], from, to: read.to, repairs: 0, flags: [] };
}

/** A figure already read, with the unit after it. */
export function valueWith(
  tokens: readonly Token[],
  from: number,
  to: number,
  figure: Figure,
  read: UnitRead | undefined,
): ValueExpr {
  const flags: string[] = [];
  if (figure.doubtful || isHalfPlural(tokens, from, to, read)) flags.push("doubtful_half");
  if (read === undefined) return { parts: [{ figure, unit: undefined }], from, to, repairs: 0, flags };
  const parts: ValuePart[] = [{ figure: scaled(figure, read), unit: read.unit }];
  let end = read.to;
  let unit = read.unit;
  let repairs = read.repaired ? 1 : 0;
  while (read.places === 0) {
    const more = continuation(tokens, end, unit);
    if (more === undefined) break;
    parts.push(more.part);
    if (tokens[more.to - 1]?.sense.repaired) repairs++;
    end = more.to;
    if (more.part.unit === undefined || more.part.unit === unit) break;
    unit = more.part.unit;
  }
  return { parts, from, to: end, repairs, flags };
}

/** "one half tenths": one and a half tenths, or half a tenth? */
function isHalfPlural(tokens: readonly Token[], from: number, to: number, read: UnitRead | undefined): boolean {
  if (read === undefined || to - from !== 2 || tokens[from + 1]?.sense.num?.t !== "half") return false;
  return tokens[from]?.sense.num?.t === "digit" && read.to === to + 1 && (read.unit === "thou" || !read.singular);
}

/** "a thou", "a tenth", "an inch": one of the unit. */
export function oneUnitAt(tokens: readonly Token[], i: number): ValueExpr | undefined {
  const article = tokens[i]?.sense.kind === "article";
  const { unit } = tokens[i]?.sense ?? {};
  if (!article && unit !== undefined && isHalfMore(tokens, i)) {
    const read: UnitRead = { unit, to: i + 1, places: 0, repaired: false, singular: true };
    return { ...valueWith(tokens, i, i, ONE, read), flags: [] };
  }
  const read = article ? unitAt(tokens, i + 1, false) : undefined;
  if (read === undefined) return undefined;
  return { ...valueWith(tokens, i, i + 1, ONE, read), flags: [] };
}

/** "thou and a half", "thou and seven tenths": one and more, its article dropped; never behind a number. */
function isHalfMore(tokens: readonly Token[], i: number): boolean {
  const { unit, repaired } = tokens[i]?.sense ?? {};
  if (unit !== "thou" && unit !== "tenth" && unit !== "in") return false;
  if (repaired || (!tokens[i]?.pause && tokens[i - 1]?.sense.num !== undefined)) return false;
  if (tokens[i + 1]?.sense.kind !== "and") return false;
  const smaller = unitAt(tokens, i + 3, false)?.unit;
  return fractionAt(tokens, i + 2) !== undefined || (smaller !== undefined && SMALLER[unit]?.includes(smaller) === true);
}
