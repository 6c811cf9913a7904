// Exact decimals as a scaled integer: n / 10^s. In and out: text, doubles; never a rounded sum.
import type { Dec } from "../types.ts";

/** Largest integer kept exactly; a figure that needs more digits is not a measurement. */
const LIMIT = Number.MAX_SAFE_INTEGER;

export const ZERO: Dec = { n: 0, s: 0 };

/** Decimal text ("3.8750", ".006", "12") to an exact decimal; undefined when it has too many digits. */
export function decOf(text: string): Dec | undefined {
  const point = text.indexOf(".");
  const digits = point < 0 ? text : text.slice(0, point) + text.slice(point + 1);
  const n = Number(digits);
  if (!Number.isFinite(n) || n > LIMIT || digits.length > 16) return undefined;
  return { n, s: point < 0 ? 0 : text.length - point - 1 };
}

/** The decimal point moved: positive `places` divides by ten that often. */
export function shift(dec: Dec, places: number): Dec {
  const s = dec.s + places;
  return s >= 0 ? { n: dec.n, s } : { n: dec.n * 10 ** -s, s: 0 };
}

export function add(a: Dec, b: Dec): Dec {
  if (a.s === b.s) return { n: a.n + b.n, s: a.s };
  const s = Math.max(a.s, b.s);
  return { n: a.n * 10 ** (s - a.s) + b.n * 10 ** (s - b.s), s };
}

export function times(dec: Dec, factor: number): Dec {
  return { n: dec.n * factor, s: dec.s };
}

export function negate(dec: Dec): Dec {
  return { n: dec.n === 0 ? 0 : -dec.n, s: dec.s };
}

/** n / d exactly, for denominators made of twos and fives up to 64; undefined otherwise. */
export function ratio(n: number, d: number): Dec | undefined {
  for (let s = 0, scale = 1; s <= 6; s++, scale *= 10) {
    const m = (n * scale) / d;
    if (Number.isInteger(m)) return { n: m, s };
  }
  return undefined;
}

/** Decimal text with every digit kept: {38750, 4} is "3.8750". */
export function textOf(dec: Dec): string {
  const sign = dec.n < 0 ? "-" : "";
  const digits = String(Math.abs(dec.n));
  if (dec.s === 0) return sign + digits;
  const padded = digits.padStart(dec.s + 1, "0");
  return `${sign}${padded.slice(0, -dec.s)}.${padded.slice(-dec.s)}`;
}

/** Nearest double of the exact decimal. */
export function numberOf(dec: Dec): number {
  // Division by a power of ten below 2^53 is correctly rounded, so this is the double nearest to the decimal.
  return dec.s <= 22 ? dec.n / 10 ** dec.s : Number(textOf(dec));
}
