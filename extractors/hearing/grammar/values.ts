// A quantity in, the ways its value may be said out: by its scale, its band, its resolution and its sign rule.

import type { Quantity, QuantityId } from "../../../shared/quantities/types.ts";
import { nominalsIn } from "../../../shared/spec/sizes.ts";
import type { Spec } from "../../../shared/spec/spec.ts";
import type { UnitId } from "../../../shared/units/units.ts";
import type { SignWord, UnitWord } from "../../speech/types.ts";
import { anyOf, chain, EMPTY, maybe, oneOf, type Phrase, tagged, weighted, words } from "./automaton.ts";
import { belowHundred, digitRun, fractionOfInch, hundreds } from "./numbers.ts";
import { metricReadOut, readOut, wholeAndFraction } from "./read-outs.ts";
import { METRIC_SMALL, small, smallDecimals } from "./small-lengths.ts";
import { hedgedToo } from "./unsure.ts";
import { choiceOf, saidApart, signWords, unitWords } from "./vocabulary.ts";
import { inBand, once, SELDOM } from "./weights.ts";

export const VALUE = "~v";

/** The parser's unit words that the figures of a unit are said with. */
const UNITS_OF: Readonly<Partial<Record<UnitId, readonly UnitWord[]>>> = {
  ft_lbf: ["ft_lbf", "pound", "N_m", "in_lbf"],
  psi: ["pound", "psi", "bar"],
  lbf: ["pound", "lbf"],
  g: ["g", "oz"],
  cc: ["cc", "in3"],
  deg: ["degree"],
  degC: ["degree", "degC", "degF"],
  uin: ["uin", "um"],
  percent: ["percent"],
  rpm: ["rpm"],
  min: ["min"],
  lbf_per_in: ["lbf_per_in"],
};

/** Units of something else: a slip that the parser refuses, where the figure would be heard with the right unit if none had the wrong one. */
const WRONG_UNITS: readonly UnitWord[] = ["thou", "kilo", "inoz"];
const WRONG = 0.02;

const unitPhrase = (unit: UnitId): Phrase =>
  once(`units of ${unit}`, () => {
    const own = saidApart((UNITS_OF[unit] ?? []).flatMap((word) => unitWords(word).slice(0, FORMS_OF_A_UNIT)));
    const known = new Set(own);
    const wrong = saidApart(WRONG_UNITS.flatMap((word) => unitWords(word).slice(0, 2))).filter((word) => !known.has(word));
    return weighted(...own.map((text) => [words(text), 1] as const), ...wrong.map((text) => [words(text), WRONG] as const));
  });

/** The parser's tables have the usual ways to say a unit first. */
const FORMS_OF_A_UNIT = 4;

/** Speeds, as round as a revolution counter is read: "eight hundred", "eight fifty", "twelve hundred and fifty", "two thousand". */
const speed: Phrase = oneOf([
  chain(
    belowHundred((n) => (n > 0 && n < 40 && n % 10 !== 0 ? 1 : 0)),
    oneOf([chain(words("hundred"), maybe(chain(maybe(words("and")), words("fifty")), 0.2)), words("fifty")]),
  ),
  chain(anyOf(["a", "one", "two", "three"]), words("thousand")),
]);

function plain(quantity: Quantity): Phrase {
  const { low, high } = quantity.band;
  const top = Math.max(99, high);
  const numbers =
    quantity.unit === "rpm"
      ? speed
      : weighted(
          [belowHundred((n) => (n === 0 ? (low <= 0 ? 0.5 : 0) : inBand(n, { low, high }))), 1],
          ...(top > 99 ? [[hundreds(100, Math.min(999, Math.max(high, 100))), 1] as const] : []),
        );
  const half: Phrase =
    quantity.resolution < 1 ? maybe(oneOf([chain(words("point"), digitRun(1, 0)), words("and a half")]), 0.5) : EMPTY;
  const usual = chain(numbers, half, maybe(unitPhrase(quantity.unit)));
  if (quantity.unit !== "ft_lbf") return hedgedToo(usual);
  // The same turn in a smaller unit comes to hundreds.
  return weighted([hedgedToo(usual), 1], [chain(hundreds(100, 999), anyOf(unitWords("in_lbf"))), SELDOM]);
}

/** The parser's words for which way a figure goes, by the rule of the quantity's sign. */
const SIGN_SAID_BY: Readonly<
  Record<Quantity["sign"], { readonly after: readonly SignWord[]; readonly even?: true; readonly before?: true }>
> = {
  never: { after: [] },
  fit: { before: true, after: ["over", "tight", "loose"], even: true },
  deck: { before: true, after: ["high", "low"], even: true },
  oversize: { after: ["over"] },
  undersize: { after: ["under"] },
  deviation: { before: true, after: ["over", "under", "long", "short"] },
};

/** What may be said after the figure and tells nothing more. */
const TRAILED: Readonly<Partial<Record<QuantityId, string>>> = {
  score_depth: "deep",
  crack_indication: "long",
  pin_fit_bush: "clearance",
  pin_fit_boss: "clearance",
};

/** A sign word heard where none was said turns the reading round, so it must be heard well to win. */
const SIGN_SAID = 0.5;

const either = (signs: readonly SignWord[]): Phrase => choiceOf(signWords(...signs), (sign) => !sign.includes(" "));

/** A figure of `quantity` that cannot be without the word for which way it goes: "sixteen thou proud". */
export const signedFigure = (quantity: Quantity, spec: Spec): Phrase =>
  tagged(chain(inchValue(quantity, spec), either(SIGN_SAID_BY[quantity.sign].after)), VALUE);

function signed(quantity: Quantity, value: Phrase): Phrase {
  const { before, after, even } = SIGN_SAID_BY[quantity.sign];
  const trailed = TRAILED[quantity.id];
  const last = weighted(
    ...(after.length === 0 ? [] : [[either(after), SIGN_SAID] as const]),
    ...(trailed === undefined ? [] : [[words(trailed), SELDOM] as const]),
  );
  return weighted(
    [chain(value, weighted([last, 1], [EMPTY, 1])), 1],
    ...(before ? [[chain(either(["minus", "plus"]), value), SELDOM] as const] : []),
    ...(even ? [[either(["even"]), 1] as const] : []),
  );
}

/** Quantities gauged in thou that are often said in tenths. */
export const TENTHS_ARE_USUAL: ReadonlySet<QuantityId> = new Set([
  "bearing_clearance",
  "piston_clearance",
  "valve_guide_clearance",
]);

const SMALL_SCALES = new Set(["thou", "small_word", "tenths_word"]);

/** A small length without a unit where both thou and tenths are usual: it is asked which. */
const BARE_ANYHOW = 0.05;

const INCH = maybe(oneOf([words("inch"), words("inches"), words("of an inch"), words("an inch")]), 0.3);

/** "Two point oh six two five". */
const DECIMAL_INCHES = chain(
  belowHundred((n) => (n > 0 && n < 10 ? 1 : 0)),
  words("point"),
  oneOf([1, 2, 3, 4].map((digits) => digitRun(digits, 0))),
);

/** Sizes of the spec sheet that a read-out of `quantity` is placed by, in inches. */
export function nominalsOf(quantity: Quantity, spec: Spec): readonly number[] {
  const key = quantity.band.nominal;
  const own = key === undefined ? [] : nominalsIn(spec, key);
  if (own.length > 0) return own;
  return [(Math.abs(quantity.band.low) + Math.abs(quantity.band.high)) / 2];
}

function inchValue(quantity: Quantity, spec: Spec): Phrase {
  const { scale, resolution, band } = quantity;
  if (SMALL_SCALES.has(scale)) {
    const size = Math.max(Math.abs(band.low), Math.abs(band.high));
    const range = { low: band.low > 0 ? band.low * 10000 : 0, high: size * 10000 };
    const fine = resolution <= 0.0005;
    const spoken = small(
      range,
      fine,
      scale === "thou" ? 1 : BARE_ANYHOW,
      scale === "thou" && !TENTHS_ARE_USUAL.has(quantity.id) ? SELDOM : 1,
    );
    return weighted([spoken, 1], [smallDecimals, SELDOM]);
  }
  if (scale === "inch_digits") {
    const nominals = nominalsOf(quantity, spec);
    const digits = hedgedToo(readOut(nominals, resolution));
    if (quantity.id === "stroke")
      return weighted([digits, 1], [chain(wholeAndFraction(1, 6), INCH), 1], [chain(DECIMAL_INCHES, INCH), SELDOM]);
    return digits;
  }
  if (scale === "fraction") {
    const below = band.high <= 1;
    const length = below ? fractionOfInch : wholeAndFraction(1, 6);
    const thou = small({ low: 0, high: 1000 }, false, 1);
    return below
      ? weighted([hedgedToo(chain(length, INCH)), 1], [thou, 1])
      : weighted([chain(length, INCH), 1], [chain(DECIMAL_INCHES, INCH), SELDOM]);
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
      words("three quarter"),
      chain(oneOf([words("three"), words("five"), words("seven")]), words("eighths")),
    ]);
    return oneOf([whole, chain(whole, words("and"), part)]);
  });

const overSpeed: Phrase = chain(speed, maybe(words("rpm")));
const overTime: Phrase = chain(
  belowHundred((n) => (n > 0 ? 1 : 0)),
  words("minutes"),
);

/** The second figure of a force at a length, a bend over a length, a pressure at a speed or for a time. */
function withOver(quantity: Quantity, value: Phrase): Phrase {
  const { over } = quantity;
  if (over === undefined) return value;
  if (over.unit === "rpm") return chain(value, maybe(chain(words("at"), overSpeed)));
  if (over.unit === "min") return chain(value, maybe(chain(words("for"), overTime)));
  const length = overLength(over.low);
  const link = over.label === "at" ? words("at") : oneOf([words("in"), words("over")]);
  const second = chain(link, length, maybe(oneOf([words("inches"), words("inch")])));
  return chain(value, maybe(second, 1, over.required ? 0.3 : 1));
}

/**
 * Everything that may be said as the value of `quantity`, each word marked as a value's. `wide` adds the ways that only an
 * open quantity makes likely: metric figures in an inch shop.
 */
export function valuePhrase(quantity: Quantity, spec: Spec, metric: boolean, wide = false): Phrase {
  const inch = inchValue(quantity, spec);
  let value = inch;
  if (metric && quantity.unit === "in") {
    const small = SMALL_SCALES.has(quantity.scale) || quantity.scale === "fraction";
    value = weighted([small ? METRIC_SMALL : metricReadOut(nominalsOf(quantity, spec)), 1], [inch, SELDOM]);
  } else if (wide && SMALL_SCALES.has(quantity.scale)) {
    value = weighted([inch, 1], [METRIC_SMALL, SELDOM]);
  }
  return tagged(withOver(quantity, signed(quantity, value)), VALUE);
}

/** A read-out said before it is known of what. */
const ANY_INCHES = [0.5, 1.5, 2.5, 3.5, 4.5];

/** How a value is said before the quantity's name, by the family the quantity belongs to; undefined where that is not done. */
export function leadingValue(quantity: Quantity): Phrase | undefined {
  const key = leadingKey(quantity);
  if (key === undefined) return undefined;
  return once(`leading ${key}`, () => {
    if (key === "small") return tagged(small({ low: 0, high: 500 }, true, 0), VALUE);
    if (key === "fraction") return tagged(chain(fractionOfInch, INCH), VALUE);
    if (key === "digits") return tagged(readOut(ANY_INCHES, 0.0001), VALUE);
    return tagged(plain(quantity), VALUE);
  });
}

/** The family of `leadingValue`; quantities of one family share it. */
export function leadingKey(quantity: Quantity): string | undefined {
  if (SMALL_SCALES.has(quantity.scale)) return quantity.sign === "never" || quantity.sign === "oversize" ? "small" : undefined;
  if (quantity.scale === "fraction") return quantity.band.high <= 1 ? "fraction" : undefined;
  if (quantity.scale === "inch_digits") return "digits";
  // A rate and a speed are read off a chart or a counter: nobody says the figure first.
  if (quantity.scale === "plain" && !["lbf_per_in", "rpm"].includes(quantity.unit)) return `plain ${quantity.unit}`;
  return undefined;
}
