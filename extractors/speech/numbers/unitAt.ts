// The unit said after a number: "thou", "tenths of a millimetre", "of an inch". In go tokens, out come unit and end.
import type { Token, UnitWord } from "../types.ts";

export interface UnitRead {
  readonly unit: UnitWord;
  readonly to: number;
  /** Decimal places the figure moves: a tenth of a millimetre is one. */
  readonly places: number;
  readonly repaired: boolean;
  readonly singular: boolean;
}

const FRACTION_UNITS: Readonly<Partial<Record<UnitWord, number>>> = { tenth: 1, hundredth: 2, thousandth: 3 };

/** Where the unit's own word stands when "of", "of a", "a" come before it; i itself when none does. */
function pastArticle(tokens: readonly Token[], i: number): number {
  let at = i;
  if (tokens[at]?.text === "of") at++;
  if (tokens[at]?.sense.kind === "article") at++;
  return at;
}

/** "in" is the unit only after figures and before nothing that it could place. */
function isInchMark(tokens: readonly Token[], i: number): boolean {
  const token = tokens[i];
  if (token?.text !== "in" || tokens[i - 1]?.sense.num?.t !== "figures") return false;
  const next = tokens[i + 1];
  return next === undefined || next.pause || (next.sense.num === undefined && next.sense.kind !== "article" && !next.unknown);
}

/**
 * The unit at i, if one stands there. `fraction` lets an article come first ("half a thou").
 */
export function unitAt(tokens: readonly Token[], i: number, fraction: boolean): UnitRead | undefined {
  if (isInchMark(tokens, i)) return { unit: "in", to: i + 1, places: 0, repaired: false, singular: false };
  let at = i;
  let token = tokens[at];
  if (token === undefined || token.pause) return undefined;
  if (token.sense.unit === undefined) {
    at = pastArticle(tokens, i);
    token = tokens[at];
    // Without a fraction before it an article may only follow "of": "a sixteenth of an inch", not "twelve a thou".
    if (at === i || (!fraction && tokens[i]?.text !== "of")) return undefined;
  }
  const unit = token?.sense.unit;
  if (token === undefined || unit === undefined) return undefined;
  const repaired = token.sense.repaired === true;
  const singular = token.sense.singular === true;
  const places = FRACTION_UNITS[unit];
  if (places !== undefined && tokens[at + 1]?.text === "of") {
    const inner = pastArticle(tokens, at + 1);
    const whole = tokens[inner]?.sense.unit;
    if (whole === "mm" || whole === "in" || whole === "thou" || whole === "um") {
      return { unit: whole, to: inner + 1, places, repaired, singular };
    }
    // "two hundredths of a mil": a mil is whatever the shop says it is.
    if (whole === "mil") return { unit: "mil", to: inner + 1, places, repaired, singular };
  }
  return { unit, to: at + 1, places: 0, repaired, singular };
}
