// Read-outs and fractions as they are said: digits placed by a nominal, whole inches with a fraction.
import { DIGITS } from "../words/numbers.ts";
import { anyOf, chain, EMPTY, maybe, oneOf, type Phrase, weighted, words } from "./automaton.ts";
import { belowHundred, digitRun, fractionOfInch, hundreds } from "./numbers.ts";
import { OUT_OF_BAND, once, SELDOM } from "./weights.ts";

const PAIRED = 0.012;

/** Inches that no such part of this engine has. */
const FAR_OUT = 0.02;

/** A read-out: the whole inches of the nominal, then as many decimals as the instrument has. */
export const readOut = (nominals: readonly number[], resolution: number): Phrase =>
  once(`read-out ${nominals.join(" ")} ${resolution}`, () => readOutPhrase(nominals, resolution));

function readOutPhrase(nominals: readonly number[], resolution: number): Phrase {
  const decimals = Math.max(2, Math.round(-Math.log10(resolution)));
  const of: (readonly [Phrase, number])[] = [];
  const heads = new Map<number, number>();
  for (const nominal of nominals) {
    heads.set(Math.floor(nominal), 1);
    // A neighbour inch only where the nominal is near enough for a real reading to cross over.
    for (const edge of [nominal - 0.06, nominal + 0.08])
      if (!heads.has(Math.floor(edge))) heads.set(Math.floor(edge), OUT_OF_BAND);
  }
  // A figure that is far out is seldom, but it must not be heard as one that is not.
  for (let inches = 1; inches < 10; inches += 1) if (!heads.has(inches)) heads.set(inches, FAR_OUT);
  const short = chain(digitRun(decimals - 1));
  for (const [inches, weight] of heads) {
    const head = words(DIGITS[inches] ?? "zero");
    if (inches === 0) {
      // Tenths of an inch by their thou: "two hundred and eighty one thou".
      of.push([chain(hundreds(100, 999), words("thou")), SELDOM * weight]);
      const lead = oneOf([EMPTY, words("point"), words("zero point"), words("oh point")]);
      of.push([chain(lead, digitRun(decimals)), weight]);
      of.push([chain(lead, short), 0.3 * weight]);
      continue;
    }
    of.push([chain(head, maybe(words("point"), 0.5), digitRun(decimals)), weight]);
    // The last zero is often left away; the parser says what to make of it.
    of.push([chain(head, maybe(words("point"), 0.5), short), 0.3 * weight]);
    if (weight < OUT_OF_BAND) continue;
    const tenths = maybe(chain(maybe(words("and")), anyOf(DIGITS.slice(1).map((digit) => `${digit} tenths`))), SELDOM);
    of.push([chain(head, oneOf([words("inch"), words("inches")]), hundreds(100, 999), words("thou"), tenths), SELDOM * weight]);
    // Two by two from the front: "nineteen ninety seven eight".
    const pair = belowHundred((n) => (Math.floor(n / 10) === inches ? 1 : 0));
    of.push([chain(pair, digitRun(decimals - 1)), PAIRED * weight]);
  }
  return { kind: "choice", of };
}

export const wholeAndFraction = (low: number, high: number): Phrase =>
  once(`fraction ${low} ${high}`, () => wholeAndFractionPhrase(low, high));

function wholeAndFractionPhrase(low: number, high: number): Phrase {
  const whole = belowHundred((n) => (n >= Math.max(1, Math.floor(low)) && n <= high ? 1 : 0));
  return weighted(
    [fractionOfInch, low < 1 ? 1 : SELDOM],
    ...(high >= 1 ? [[chain(whole, words("and"), fractionOfInch), 1] as const, [whole, 0.3] as const] : []),
  );
}

export function metricReadOut(nominals: readonly number[]): Phrase {
  const heads = new Set(nominals.flatMap((nominal) => [-1, 0, 1].map((step) => Math.round(nominal * 25.4) + step)));
  const whole = belowHundred((n) => (heads.has(n) ? 1 : SELDOM * 0.1));
  return chain(whole, words("point"), oneOf([digitRun(2, 0), digitRun(1, 0), digitRun(3, 0)]), maybe(words("millimetres")));
}
