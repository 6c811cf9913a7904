// Small lengths as they are said: thou, halves and tenths of a thou, decimals, hundredths of a millimetre.
import { chain, maybe, oneOf, type Phrase, weighted, words } from "./automaton.ts";
import { belowHundred, digitRun, hundreds, oneDigit } from "./numbers.ts";
import { orUnsure } from "./unsure.ts";
import { inBand, once, type ScaleRange, SELDOM } from "./weights.ts";

/** "Eleven and a half" without its unit sounds much like "eleven thou". */
const BARE_HALF = 0.08;

/** Parts of a thou after whole ones; what is not here is heard as what is. */
const PARTS = weighted([words("and a half"), 1], [words("and a quarter"), 0.2], [words("and three quarters"), 0.2]);

const tenthWord = (one: boolean): Phrase => words(one ? "tenth" : "tenths");
/** Bands are coarsened to a few, for the same reason: a weight need not be exact. */
const BAND_STEPS = [50, 150, 250, 450, 1300, 6000];
const coarse = ({ high }: ScaleRange): ScaleRange => ({
  low: 0,
  high: BAND_STEPS.find((step) => high <= step) ?? high,
});

/**
 * Small lengths: thou, halves of a thou and tenths of a thou. `bare` when "twelve" alone means twelve thou; `tenths` is how
 * usual it is to say tenths, 1 where they are as usual as thou: the two sound alike, and the slip makes a tenth of the size.
 */
export function small(exact: ScaleRange, fine: boolean, bare: boolean, tenths = 1): Phrase {
  const range = coarse(exact);
  const key = `small ${range.low} ${range.high} ${fine} ${bare} ${tenths}`;
  return once(key, () => orUnsure(smallPhrase(range, fine, bare, tenths)));
}

function smallPhrase(range: ScaleRange, fine: boolean, bare: boolean, tenthsWeight: number): Phrase {
  const thou = { low: range.low / 10, high: range.high / 10 };
  const whole = belowHundred((n) => (n === 0 ? 0 : inBand(n, thou)));
  const unit = bare ? maybe(words("thou"), 1, 0.5) : words("thou");
  const afterPart = bare ? maybe(words("thou"), 1, BARE_HALF) : unit;
  const of: (readonly [Phrase, number])[] = [
    [chain(whole, unit), 1],
    [chain(whole, PARTS, afterPart), 0.7],
    [chain(whole, words("point"), oneOf([oneDigit, chain(oneDigit, oneDigit)]), afterPart), 0.3],
    [chain(maybe(oneOf([words("oh"), words("zero")])), words("point"), oneDigit, words("thou")), SELDOM],
    [
      chain(
        oneOf([
          words("a thou"),
          chain(
            belowHundred((n) => (n > 0 && n < 20 ? inBand(n, thou) : 0)),
            words("thou"),
          ),
        ]),
        PARTS,
      ),
      0.4,
    ],
    [words("a thou"), 0.7],
    [words("half a thou"), inBand(5, range)],
    [words("a couple of thou"), SELDOM],
  ];
  if (range.high >= 1000) of.push([chain(hundreds(100, Math.min(999, range.high / 10)), unit), inBand(1000, range)]);
  if (fine) {
    of.push([
      chain(
        belowHundred((n) => (n < 2 ? 0 : inBand(n, range))),
        tenthWord(false),
      ),
      tenthsWeight,
    ]);
    of.push([chain(words("one"), tenthWord(true)), inBand(1, range) * tenthsWeight]);
    of.push([
      chain(
        belowHundred((n) => (n > 1 && n < 20 ? inBand(n, range) : 0)),
        words("ten thousandths"),
      ),
      SELDOM * tenthsWeight,
    ]);
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
      0.4 * tenthsWeight,
    ]);
  }
  return { kind: "choice", of };
}

/** "point oh one two", "oh oh one five": a small length by its decimals. */
export const smallDecimals = (fine: boolean): Phrase => once(`decimals ${fine}`, () => smallDecimalsPhrase(fine));

function smallDecimalsPhrase(fine: boolean): Phrase {
  const zero = oneOf([words("oh"), words("zero")]);
  const tail = oneOf([digitRun(2, 0), ...(fine ? [digitRun(3, 0)] : [])]);
  return weighted([chain(maybe(zero, SELDOM), words("point"), zero, tail), 1], [chain(zero, zero, digitRun(2, 0)), 0.5]);
}

export const METRIC_SMALL = weighted(
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
