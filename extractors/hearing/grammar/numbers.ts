// Spoken whole numbers and digit strings as phrases. Ranges are given in full: a number that the grammar could not hear
// would be heard as its nearest neighbour, so what is unlikely is made unlikely, never impossible.
import { DIGITS, TEENS, TENS } from "../words/numbers.ts";
import { anyOf, chain, EMPTY, maybe, oneOf, type Phrase, weighted, words } from "./automaton.ts";

/** 0..99 as usually said. */
export function spokenBelowHundred(n: number): string {
  if (n < 10) return DIGITS[n] ?? "";
  if (n < 20) return TEENS[n - 10] ?? "";
  const ten = TENS[Math.floor(n / 10) - 2] ?? "";
  return n % 10 === 0 ? ten : `${ten} ${DIGITS[n % 10]}`;
}

/** Whole numbers 0..99 with a weight each; 0 leaves a number out. */
export function belowHundred(weight: (n: number) => number): Phrase {
  const of: (readonly [Phrase, number])[] = [];
  for (let n = 0; n < 100; n += 1) {
    const w = weight(n);
    if (w > 0) of.push([words(spokenBelowHundred(n)), w]);
  }
  return { kind: "choice", of };
}

/** Whole numbers 100..999 whose hundreds are in reach: "two hundred and twenty one", "two twenty one", "a hundred". */
export function hundreds(low: number, high: number): Phrase {
  const of: (readonly [Phrase, number])[] = [];
  const anyRest = belowHundred((n) => (n > 0 ? 1 : 0));
  const glued = belowHundred((n) => (n >= 10 ? 1 : 0));
  const zeroTail = chain(
    oneOf([words("oh"), words("zero")]),
    belowHundred((n) => (n < 10 ? 1 : 0)),
  );
  for (let h = Math.max(1, Math.floor(low / 100)); h <= Math.min(9, Math.floor(high / 100)); h += 1) {
    const head = words(DIGITS[h] ?? "");
    const counted = h === 1 ? oneOf([head, words("a")]) : head;
    of.push([chain(counted, words("hundred"), maybe(chain(maybe(words("and")), anyRest))), 1]);
    of.push([chain(head, oneOf([glued, zeroTail])), 1]);
    of.push([chain(head, oneDigit, oneDigit), 1]);
  }
  return { kind: "choice", of };
}

/** One digit of a read-out; zero is "oh" as often as "zero". */
export const oneDigit: Phrase = anyOf([...DIGITS, "oh"]);
const nonZero: Phrase = anyOf(DIGITS.slice(1));
const doubled: Phrase = chain(words("double"), anyOf([...DIGITS, "oh"]));
const pair: Phrase = weighted([belowHundred((n) => (n >= 10 ? 1 : 0)), 1]);

/** `count` digits, said one by one, doubled, or (less usual) two by two. */
export function digitRun(count: number, pairs = 0.012): Phrase {
  if (count <= 0) return EMPTY;
  const of: (readonly [Phrase, number])[] = [[chain(oneDigit, digitRun(count - 1, pairs)), 1]];
  if (count >= 2) {
    of.push([chain(doubled, digitRun(count - 2, pairs)), 0.4]);
    if (pairs > 0) of.push([chain(pair, digitRun(count - 2, pairs)), pairs]);
  }
  return { kind: "choice", of };
}

/** "three eighths", "a quarter", "nine sixteenths", "thirty-one sixty-fourths". */
export const fractionOfInch: Phrase = weighted(
  [words("a half"), 1],
  [words("half"), 1],
  [chain(oneOf([words("a"), words("one")]), oneOf([words("quarter"), words("eighth"), words("sixteenth")])), 1],
  [words("quarter"), 1],
  [words("three quarters"), 1],
  [chain(nonZero, words("eighths")), 1],
  [
    chain(
      belowHundred((n) => (n >= 3 && n <= 15 ? 1 : 0)),
      words("sixteenths"),
    ),
    1,
  ],
  [chain(oneOf([words("a"), words("one")]), words("thirty second")), 1],
  [
    chain(
      belowHundred((n) => (n >= 3 && n <= 31 ? 1 : 0)),
      words("thirty seconds"),
    ),
    1,
  ],
  [
    chain(
      belowHundred((n) => (n >= 3 && n <= 63 ? 1 : 0)),
      words("sixty fourths"),
    ),
    0.3,
  ],
);
