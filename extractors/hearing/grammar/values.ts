// A quantity in, the ways its value may be said out: by its scale, its band, its resolution and its sign rule.
import type { Quantity } from "../../../shared/quantities/types.ts";
import type { Spec } from "../../../shared/spec/spec.ts";
import { chain, EMPTY, maybe, oneOf, type Phrase, tagged, weighted, words } from "./automaton.ts";
import { belowHundred, DIGITS, digitRun, fractionOfInch, hundreds } from "./numbers.ts";

export const VALUE = "~v";

/** Out-of-band values are this much less usual than those in the band. */
const OUT_OF_BAND = 0.05;
/** Ways of saying a value that are understood but seldom used. */
const SELDOM = 0.1;

interface ScaleRange {
  readonly low: number;
  readonly high: number;
}

const inBand = (n: number, { low, high }: ScaleRange) => (n >= low && n <= high ? 1 : OUT_OF_BAND);

const tenthWord = (one: boolean): Phrase => words(one ? "tenth" : "tenths");

const kept = new Map<string, Phrase>();

/** One phrase object for equal recipes, so that their states are built once and shared. */
function once(key: string, make: () => Phrase): Phrase {
  const known = kept.get(key);
  if (known !== undefined) return known;
  const made = make();
  kept.set(key, made);
  return made;
}

/** Bands are coarsened to a few, for the same reason: a weight need not be exact. */
const BAND_STEPS = [150, 500, 1300, 6000];
const coarse = ({ high }: ScaleRange): ScaleRange => ({
  low: 0,
  high: BAND_STEPS.find((step) => high <= step) ?? high,
});

/** Small lengths: thou, halves of a thou and tenths of a thou. `bare` when "twelve" alone means twelve thou. */
function small(exact: ScaleRange, fine: boolean, bare: boolean): Phrase {
  const range = coarse(exact);
  return once(`small ${range.low} ${range.high} ${fine} ${bare}`, () => smallPhrase(range, fine, bare));
}

function smallPhrase(range: ScaleRange, fine: boolean, bare: boolean): Phrase {
  const thou = { low: range.low / 10, high: range.high / 10 };
  const whole = belowHundred((n) => (n === 0 ? 0 : inBand(n, thou)));
  const unit = bare ? maybe(words("thou"), 1, 0.5) : words("thou");
  const of: (readonly [Phrase, number])[] = [
    [chain(whole, unit), 1],
    [chain(whole, words("and a half"), unit), 0.7],
    [
      chain(
        oneOf([
          words("a thou"),
          chain(
            belowHundred((n) => (n > 0 && n < 20 ? inBand(n, thou) : 0)),
            words("thou"),
          ),
        ]),
        words("and a half"),
      ),
      0.4,
    ],
    [words("a thou"), 0.7],
    [words("half a thou"), inBand(5, range)],
  ];
  if (range.high >= 1000) of.push([chain(hundreds(100, Math.min(999, range.high / 10)), unit), inBand(1000, range)]);
  if (fine) {
    of.push([
      chain(
        belowHundred((n) => (n < 2 ? 0 : inBand(n, range))),
        tenthWord(false),
      ),
      1,
    ]);
    of.push([chain(words("one"), tenthWord(true)), inBand(1, range)]);
    const tenths = oneOf([
      chain(words("one"), tenthWord(true)),
      chain(
        belowHundred((n) => (n > 1 && n < 10 ? 1 : 0)),
        tenthWord(false),
      ),
    ]);
    of.push([
      chain(
        belowHundred((n) => (n > 0 && n < 20 ? inBand(n, thou) : 0)),
        words("thou"),
        maybe(words("and")),
        tenths,
      ),
      0.4,
    ]);
  }
  return { kind: "choice", of };
}

/** "point oh one two", "oh oh one five": a small length by its decimals. */
const smallDecimals = (fine: boolean): Phrase => once(`decimals ${fine}`, () => smallDecimalsPhrase(fine));

function smallDecimalsPhrase(fine: boolean): Phrase {
  const zero = oneOf([words("oh"), words("zero")]);
  const tail = oneOf([digitRun(2, 0), ...(fine ? [digitRun(3, 0)] : [])]);
  return weighted([chain(maybe(zero, SELDOM), words("point"), zero, tail), 1], [chain(zero, zero, digitRun(2, 0)), 0.5]);
}

/** A read-out: the whole inches of the nominal, then as many decimals as the instrument has. */
const readOut = (nominals: readonly number[], resolution: number, wide: boolean): Phrase =>
  once(`read-out ${nominals.join(" ")} ${resolution} ${wide}`, () => readOutPhrase(nominals, resolution, wide));

function readOutPhrase(nominals: readonly number[], resolution: number, wide: boolean): Phrase {
  const decimals = Math.max(2, Math.round(-Math.log10(resolution)));
  const of: (readonly [Phrase, number])[] = [];
  const heads = new Map<number, number>();
  for (const nominal of nominals) {
    heads.set(Math.floor(nominal), 1);
    // A neighbour inch only where the nominal is near enough for a real reading to cross over.
    for (const edge of [nominal - 0.06, nominal + 0.08])
      if (!heads.has(Math.floor(edge))) heads.set(Math.floor(edge), OUT_OF_BAND);
  }
  const short = chain(digitRun(decimals - 1));
  for (const [inches, weight] of heads) {
    const head = words(DIGITS[inches] ?? "zero");
    if (inches === 0) {
      const lead = oneOf([EMPTY, words("point"), words("zero point"), words("oh point")]);
      of.push([chain(lead, digitRun(decimals)), weight]);
      of.push([chain(lead, short), 0.3 * weight]);
      continue;
    }
    of.push([chain(head, maybe(words("point"), 0.5), digitRun(decimals)), weight]);
    // The last zero is often left away; the parser says what to make of it.
    of.push([chain(head, maybe(words("point"), 0.5), short), 0.3 * weight]);
    if (wide) of.push([chain(head, oneOf([words("inch"), words("inches")]), hundreds(100, 999), words("thou")), SELDOM * weight]);
  }
  return { kind: "choice", of };
}

const wholeAndFraction = (low: number, high: number): Phrase =>
  once(`fraction ${low} ${high}`, () => wholeAndFractionPhrase(low, high));

function wholeAndFractionPhrase(low: number, high: number): Phrase {
  const whole = belowHundred((n) => (n >= Math.max(1, Math.floor(low)) && n <= high ? 1 : 0));
  return weighted(
    [fractionOfInch, low < 1 ? 1 : SELDOM],
    ...(high >= 1 ? [[chain(whole, words("and"), fractionOfInch), 1] as const, [whole, 0.3] as const] : []),
  );
}

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
  return chain(numbers, half, maybe(oneOf(units.map((unit) => words(unit)))));
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

function signed(quantity: Quantity, value: Phrase, wide: boolean): Phrase {
  const { before, after, even = [] } = SIGN_WORDS[quantity.sign];
  if (after.length === 0) return value;
  const afterWords = oneOf(after.map((word) => words(word)));
  return oneOf([
    chain(value, maybe(afterWords)),
    ...(before.length === 0 || !wide ? [] : [chain(oneOf(before.map((word) => words(word))), value)]),
    ...even.map((word) => words(word)),
  ]);
}

const METRIC_SMALL = weighted(
  [
    chain(
      belowHundred((n) => (n > 0 ? 1 : 0)),
      words("microns"),
    ),
    1,
  ],
  [
    chain(
      belowHundred((n) => (n > 0 ? 1 : 0)),
      words("hundredths"),
      maybe(words("of a millimetre"), 0.5),
    ),
    1,
  ],
  [
    chain(
      belowHundred((n) => (n > 0 ? 1 : 0)),
      words("tenths of a millimetre"),
    ),
    0.5,
  ],
  [
    chain(
      maybe(words("zero"), 0.5),
      words("point"),
      oneOf([digitRun(2, 0), digitRun(1, 0), digitRun(3, 0)]),
      maybe(words("millimetres")),
    ),
    1,
  ],
);

function metricReadOut(nominals: readonly number[]): Phrase {
  const heads = new Set(nominals.flatMap((nominal) => [-1, 0, 1].map((step) => Math.round(nominal * 25.4) + step)));
  const whole = belowHundred((n) => (heads.has(n) ? 1 : SELDOM * 0.1));
  return chain(whole, words("point"), oneOf([digitRun(2, 0), digitRun(1, 0), digitRun(3, 0)]), maybe(words("millimetres")));
}

const SMALL_SCALES = new Set(["thou", "small_word", "tenths_word"]);

/** Sizes of the spec sheet that a read-out of `quantity` is placed by, in inches. */
export function nominalsOf(quantity: Quantity, spec: Spec): readonly number[] {
  const key = quantity.band.nominal;
  const own = key === undefined ? undefined : spec.nominals[key];
  if (own !== undefined) return own.map(Number);
  return [(Math.abs(quantity.band.low) + Math.abs(quantity.band.high)) / 2];
}

function inchValue(quantity: Quantity, spec: Spec, wide: boolean): Phrase {
  const { scale, resolution, band } = quantity;
  if (SMALL_SCALES.has(scale)) {
    const size = Math.max(Math.abs(band.low), Math.abs(band.high));
    const range = { low: band.low > 0 ? band.low * 10000 : 0, high: size * 10000 };
    const fine = resolution <= 0.0005;
    const spoken = small(range, fine, scale === "thou");
    return wide ? weighted([spoken, 1], [smallDecimals(fine), SELDOM]) : spoken;
  }
  if (scale === "inch_digits") {
    const nominals = nominalsOf(quantity, spec);
    const digits = readOut(nominals, resolution, wide);
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
