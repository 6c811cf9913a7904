// Small lengths as they are said: thou, halves and tenths of a thou, decimals, hundredths of a millimetre.
import { chain, maybe, oneOf, type Phrase, weighted, words } from "./automaton.ts";
import { belowHundred, digitRun, hundreds, oneDigit, spokenBelowHundred } from "./numbers.ts";
import { BARE_PART, orUnsure, PARTS } from "./unsure.ts";
import { inBand, once, type ScaleRange, SELDOM } from "./weights.ts";

const NUMBERS = Array.from({ length: 99 }, (_, n) => n + 1);

/** Bands are coarsened to a few, for the same reason: a weight need not be exact. */
const BAND_STEPS = [59, 99, 199, 299, 499, 1300, 6000];
const coarse = ({ high }: ScaleRange): ScaleRange => ({
  low: 0,
  high: BAND_STEPS.find((step) => high <= step) ?? high,
});

/**
 * Small lengths: thou, halves of a thou and tenths of a thou. `bare` is how usual it is to leave out the unit: "twelve"; `tenths` is how
 * usual it is to say tenths, 1 where they are as usual as thou: the two sound alike, and the slip makes a tenth of the size.
 */
export function small(exact: ScaleRange, fine: boolean, bare: number, tenths = 1): Phrase {
  const range = coarse(exact);
  const hundred = exact.high >= 1000;
  const key = `small ${range.low} ${range.high} ${fine} ${bare} ${tenths} ${hundred}`;
  return once(key, () => {
    const whole = belowHundred((n) => (n > 0 ? inBand(n, inThou(range)) : 0));
    return orUnsure(smallPhrase(range, fine, bare, tenths, hundred), whole);
  });
}

const inThou = ({ low, high }: ScaleRange): ScaleRange => ({ low: low / 10, high: high / 10 });

/** How a whole number goes on, by how usual it is as that many thou and as that many tenths. */
interface Usual {
  readonly thou: number;
  readonly tenths: number;
}

/** What may follow a whole number, the same for as many numbers as may be: each other rest has states of its own, and each costs time. */
function restOf(fine: boolean, bare: number, usual: Usual, tenthWord: string): Phrase {
  const thou = weighted([words("thou"), 1], [words("thousandths"), SELDOM]);
  const unit = bare > 0 ? maybe(thou, 1, 0.5 * bare) : thou;
  const afterPart = bare > 0 ? maybe(thou, 1, BARE_PART * bare) : thou;
  const of: (readonly [Phrase, number])[] = [
    [unit, usual.thou],
    [chain(PARTS, afterPart), 0.7 * usual.thou],
    [chain(thou, PARTS), 0.4 * usual.thou],
    [chain(DECIMALS, afterPart), 0.3 * usual.thou],
  ];
  if (fine)
    of.push(
      [words(tenthWord), usual.tenths],
      [words("ten thousandths"), SELDOM * usual.tenths],
      [chain(thou, maybe(words("and")), FEW_TENTHS), 0.4 * usual.thou * usual.tenths],
      [chain(words("and"), FEW_TENTHS, maybe(thou)), SELDOM * usual.thou * usual.tenths],
    );
  return { kind: "choice", of };
}

/** Decimals of a thou. */
const DECIMALS = chain(words("point"), oneDigit, maybe(oneDigit));

const FEW_TENTHS = oneOf([
  words("one tenth"),
  chain(
    belowHundred((n) => (n > 1 && n < 10 ? 1 : 0)),
    words("tenths"),
  ),
]);

function smallPhrase(range: ScaleRange, fine: boolean, bare: number, tenthsWeight: number, hundred: boolean): Phrase {
  const thou = inThou(range);
  const rests = new Map<string, Phrase>();
  const rest = (n: number): Phrase => {
    const tenthWord = n === 1 ? "tenth" : "tenths";
    const usual = { thou: inBand(n, thou), tenths: inBand(n, range) * tenthsWeight };
    const key = `${tenthWord} ${usual.thou} ${usual.tenths}`;
    const made = rests.get(key) ?? restOf(fine, bare, usual, tenthWord);
    rests.set(key, made);
    return made;
  };
  const whole = weighted(...NUMBERS.map((n) => [chain(words(spokenBelowHundred(n)), rest(n)), 1] as const));
  const of: (readonly [Phrase, number])[] = [
    [whole, 1],
    [chain(maybe(oneOf([words("oh"), words("zero")])), DECIMALS, words("thou")), SELDOM],
    [chain(words("a thou"), maybe(PARTS, 0.4 / 0.7)), 0.7],
    [chain(words("thou"), PARTS), SELDOM],
    [words("half a thou"), inBand(5, range)],
    [chain(oneOf([words("a couple of"), words("a few")]), words("thou")), SELDOM],
    ...(fine ? [[words("a tenth"), inBand(1, range) * tenthsWeight] as const] : []),
  ];
  if (hundred)
    of.push([
      chain(hundreds(100, Math.min(999, range.high / 10)), bare > 0 ? maybe(words("thou"), 1, 0.5 * bare) : words("thou")),
      inBand(1000, range),
    ]);
  return { kind: "choice", of };
}

/** "point oh one two", "oh oh one five", "point oh one four five inch": a small length by its decimals. */
export const smallDecimals: Phrase = (() => {
  const zero = oneOf([words("oh"), words("zero")]);
  const tail = oneOf([digitRun(2, 0), digitRun(3, 0)]);
  const inch = maybe(oneOf([words("inch"), words("inches")]), SELDOM);
  return weighted([chain(maybe(zero, SELDOM), words("point"), zero, tail, inch), 1], [chain(zero, zero, digitRun(2, 0)), 0.5]);
})();

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
