// A quantity in, the ways its value may be said out: by its scale, its band, its resolution and its sign rule.

import type { Quantity, QuantityId } from "../../../shared/quantities/types.ts";
import { nominalsIn } from "../../../shared/spec/sizes.ts";
import type { Spec } from "../../../shared/spec/spec.ts";
import { chain, EMPTY, maybe, oneOf, type Phrase, tagged, weighted, words } from "./automaton.ts";
import { belowHundred, digitRun, fractionOfInch, hundreds } from "./numbers.ts";
import { metricReadOut, readOut, wholeAndFraction } from "./read-outs.ts";
import { METRIC_SMALL, small, smallDecimals } from "./small-lengths.ts";
import { hedgedToo } from "./unsure.ts";
import { inBand, once, SELDOM } from "./weights.ts";

export const VALUE = "~v";

const PLAIN_UNITS: Readonly<Partial<Record<string, readonly string[]>>> = {
  ft_lbf: ["foot pounds", "pounds", "newton metres", "inch pounds"],
  psi: ["pounds", "psi"],
  lbf: ["pounds"],
  g: ["grams"],
  cc: ["cc"],
  deg: ["degrees"],
  degC: ["degrees", "celsius", "degrees celsius", "fahrenheit", "degrees fahrenheit"],
  uin: ["microinches"],
};

function plain(quantity: Quantity): Phrase {
  const { low, high } = quantity.band;
  const top = Math.max(99, high);
  const numbers = weighted(
    [belowHundred((n) => (n === 0 ? (low <= 0 ? 0.5 : 0) : inBand(n, { low, high }))), 1],
    ...(top > 99 ? [[hundreds(100, Math.min(999, Math.max(high, 100))), 1] as const] : []),
  );
  const half: Phrase =
    quantity.resolution < 1 ? maybe(oneOf([chain(words("point"), digitRun(1, 0)), words("and a half")]), 0.5) : EMPTY;
  const units = PLAIN_UNITS[quantity.unit] ?? [];
  const usual = chain(numbers, half, maybe(oneOf(units.map((unit) => words(unit)))));
  if (quantity.unit !== "ft_lbf") return hedgedToo(usual);
  // The same turn in a smaller unit comes to hundreds.
  return weighted([hedgedToo(usual), 1], [chain(hundreds(100, 999), words("inch pounds")), SELDOM]);
}

const SIGN_WORDS: Readonly<
  Record<Quantity["sign"], { before: readonly string[]; after: readonly string[]; even?: readonly string[] }>
> = {
  never: { before: [], after: [] },
  fit: {
    before: ["minus", "plus"],
    after: ["over", "tight", "loose", "interference", "press", "clearance"],
    even: ["size for size", "line to line"],
  },
  deck: { before: ["minus", "plus"], after: ["proud", "above", "high", "up", "low", "below", "down"], even: ["flush"] },
  oversize: { before: [], after: ["over", "oversize"] },
  undersize: { before: [], after: ["under", "undersize"] },
  deviation: { before: ["minus", "plus"], after: ["over", "under", "long", "short"] },
};

/** A sign word heard where none was said turns the reading round, so it must be heard well to win. */
const SIGN_SAID = 0.5;

function signed(quantity: Quantity, value: Phrase, wide: boolean): Phrase {
  const { before, after, even = [] } = SIGN_WORDS[quantity.sign];
  if (after.length === 0) return value;
  const afterWords = oneOf(after.map((word) => words(word)));
  return oneOf([
    chain(value, maybe(afterWords, SIGN_SAID)),
    ...(before.length === 0 || !wide ? [] : [chain(oneOf(before.map((word) => words(word))), value)]),
    ...even.map((word) => words(word)),
  ]);
}

/** Quantities gauged in thou that are often said in tenths. */
export const TENTHS_ARE_USUAL: ReadonlySet<QuantityId> = new Set([
  "bearing_clearance",
  "piston_clearance",
  "valve_guide_clearance",
]);

const SMALL_SCALES = new Set(["thou", "small_word", "tenths_word"]);

/** Sizes of the spec sheet that a read-out of `quantity` is placed by, in inches. */
export function nominalsOf(quantity: Quantity, spec: Spec): readonly number[] {
  const key = quantity.band.nominal;
  const own = key === undefined ? [] : nominalsIn(spec, key);
  if (own.length > 0) return own;
  return [(Math.abs(quantity.band.low) + Math.abs(quantity.band.high)) / 2];
}

function inchValue(quantity: Quantity, spec: Spec, wide: boolean): Phrase {
  const { scale, resolution, band } = quantity;
  if (SMALL_SCALES.has(scale)) {
    const size = Math.max(Math.abs(band.low), Math.abs(band.high));
    const range = { low: band.low > 0 ? band.low * 10000 : 0, high: size * 10000 };
    const fine = resolution <= 0.0005;
    const spoken = small(range, fine, scale === "thou", scale === "thou" && !TENTHS_ARE_USUAL.has(quantity.id) ? SELDOM : 1);
    return wide ? weighted([spoken, 1], [smallDecimals(fine), SELDOM]) : spoken;
  }
  if (scale === "inch_digits") {
    const nominals = nominalsOf(quantity, spec);
    const digits = hedgedToo(readOut(nominals, resolution, wide));
    if (quantity.id === "stroke") return weighted([digits, 1], [wholeAndFraction(1, 6), 1]);
    return digits;
  }
  if (scale === "fraction") {
    const below = band.high <= 1;
    const length = below ? fractionOfInch : wholeAndFraction(1, 6);
    const inch = maybe(oneOf([words("inch"), words("of an inch")]), 0.3);
    const thou = small({ low: 0, high: 1000 }, false, true);
    return below ? weighted([chain(length, inch), 1], [thou, 1]) : chain(length, inch);
  }
  return plain(quantity);
}

/** A spring's or a mandrel's length: whole inches, and halves or quarters. */
const overLength = (low: number): Phrase =>
  once(`over ${low}`, () => {
    const whole = belowHundred((n) => (n > 0 && n <= 24 ? 1 : 0));
    const part = oneOf([
      words("a half"),
      words("a quarter"),
      words("three quarters"),
      words("an eighth"),
      chain(oneOf([words("three"), words("five"), words("seven")]), words("eighths")),
    ]);
    return oneOf([whole, chain(whole, words("and"), part)]);
  });

/** The second figure of a force at a length or a bend over a length. */
function withOver(quantity: Quantity, value: Phrase): Phrase {
  const { over } = quantity;
  if (over === undefined) return value;
  const length = overLength(over.low);
  const link = over.label === "at" ? words("at") : oneOf([words("in"), words("over")]);
  const second = chain(link, length, over.low >= 0.5 && over.label !== "at" ? maybe(words("inches")) : EMPTY);
  return chain(value, maybe(second));
}

/**
 * Everything that may be said as the value of `quantity`, each word marked as a value's. `wide` adds the ways that only an
 * open quantity makes likely: metric figures in an inch shop.
 */
export function valuePhrase(quantity: Quantity, spec: Spec, metric: boolean, wide = false): Phrase {
  const inch = inchValue(quantity, spec, wide);
  let value = inch;
  if (metric && quantity.unit === "in") {
    const small = SMALL_SCALES.has(quantity.scale) || quantity.scale === "fraction";
    value = weighted([small ? METRIC_SMALL : metricReadOut(nominalsOf(quantity, spec)), 1], [inch, SELDOM]);
  } else if (wide && SMALL_SCALES.has(quantity.scale)) {
    value = weighted([inch, 1], [METRIC_SMALL, SELDOM]);
  }
  return tagged(withOver(quantity, signed(quantity, value, wide)), VALUE);
}

/** How a value is said before the quantity's name, by the family the quantity belongs to; undefined where that is not done. */
export function leadingValue(quantity: Quantity): Phrase | undefined {
  const key = leadingKey(quantity);
  if (key === undefined) return undefined;
  return once(`leading ${key}`, () => {
    if (key === "small") return tagged(small({ low: 0, high: 500 }, true, false), VALUE);
    if (key === "fraction") return tagged(chain(fractionOfInch, maybe(words("inch"))), VALUE);
    return tagged(plain(quantity), VALUE);
  });
}

/** The family of `leadingValue`; quantities of one family share it. */
export function leadingKey(quantity: Quantity): string | undefined {
  if (SMALL_SCALES.has(quantity.scale)) return quantity.sign === "never" || quantity.sign === "oversize" ? "small" : undefined;
  if (quantity.scale === "fraction") return quantity.band.high <= 1 ? "fraction" : undefined;
  if (quantity.scale === "plain") return `plain ${quantity.unit}`;
  return undefined;
}
