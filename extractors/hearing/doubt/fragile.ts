// Words that telephone-band sound hardly tells apart: a sentence that holds one is heard more often before it counts.
import { isFigure } from "../text.ts";
import { saidAs } from "../words/dictionary.ts";
import { DIGITS, ONE_TO_NINE, TEENS, TENS } from "../words/numbers.ts";
import { plainWord } from "../words/plain-word.ts";

const IN_TEEN: ReadonlySet<string> = new Set(TEENS.filter((word) => word.endsWith("teen")));
const BARE_TY: ReadonlySet<string> = new Set(TENS.filter((word) => word !== "twenty"));
const ONE_DIGIT: ReadonlySet<string> = new Set([...DIGITS, "oh", "double"]);
const IN_TENS: ReadonlySet<string> = new Set(TENS);
const TWO_DIGITS: ReadonlySet<string> = new Set([...TEENS, ...TENS]);
const isDigits = (word: string) => ONE_DIGIT.has(word) || TWO_DIGITS.has(word);

/**
 * Whether `words` hold a number in -teen, or in -ty without a digit after it: fifteen is heard for fifty and the other way;
 * or end in a bare half: "eleven thou" is heard for "eleven and a half".
 */
export function isFragile(words: readonly string[]): boolean {
  if (words.at(-1) === "half") return true;
  return words.some((word, index) => IN_TEEN.has(word) || (BARE_TY.has(word) && !ONE_TO_NINE.has(words[index + 1] ?? "")));
}

/** Consonants without voice: hiss hides which of them was said, and a band as narrow as the telephone's half of it already. */
const HUSHED_PHONES: ReadonlySet<string> = new Set(["CH", "F", "HH", "K", "P", "S", "SH", "T", "TH"]);

/** A way to say a word with every run of hushed consonants as one sound. */
const inHiss = (way: readonly string[]) =>
  way
    .map((phone) => (HUSHED_PHONES.has(phone) ? "-" : phone))
    .filter((phone, index, all) => phone !== "-" || all[index - 1] !== "-")
    .join(" ");

const NUMBERS_IN_HISS = [...DIGITS, ...TEENS, ...TENS].map((word) => ({ word, ways: saidAs(word).map(inHiss) }));

const HUSHED: ReadonlySet<string> = new Set(
  NUMBERS_IN_HISS.filter(({ word, ways }) =>
    NUMBERS_IN_HISS.some((other) => other.word !== word && other.ways.some((way) => ways.includes(way))),
  ).map(({ word }) => word),
);

/** Whether another number's word differs from `word` in consonants without voice alone: fifteen and sixteen, fifty and sixty. */
export const isHushed = (word: string): boolean => HUSHED.has(word);

/** Whether noise may have made `words` of others: a nut's letter, which is one of two vowels, or a "zero", which hum makes of "two". */
export const isBlurred = (words: readonly string[]): boolean =>
  words.some((word, at) => word === "zero" || (word === "nut" && (words[at + 1] ?? "").length === 1));

/** Fewest digits of a read-out. */
const READ_OUT = 4;

/** Digits that a word adds to the number read out before it: two for "twelve", one for "oh", none for the "one" of "eighty-one". */
function digitsOf(word: string, before: string | undefined): number {
  if (TWO_DIGITS.has(word)) return 2;
  return ONE_TO_NINE.has(word) && IN_TENS.has(before ?? "") ? 0 : 1;
}

/**
 * Whether `words` hold a read-out of four digits or more, said one by one or in pairs ("three seven twelve"), a
 * point among them or not: each digit is one more place to slip, and no band catches the last.
 */
export function isReadOut(words: readonly string[]): boolean {
  let digits = 0;
  return words.some((word, at) => {
    if (word === "point") return false;
    digits = isDigits(word) ? digits + digitsOf(word, words[at - 1]) : 0;
    return digits >= READ_OUT;
  });
}

/**
 * Below this ratio, dB, what slips is asked about where it costs more a second. Of nine tuning voices' figures under hum at 5 dB, which
 * fitted and led as they must, two in 122 read-outs had a wrong digit, and cost 229 and 245 (of the right ones 33 cost more than the first
 * limit here), and three in 161 teens and bare tens were another, and cost 254 and more (of the right ones 24).
 */
const LOUD_SNR = 12;
const FAIR_READ_OUT = 225;
const FAIR_FRAGILE = 250;

/** Whether noise at this ratio (dB) may have made another number of one in `words` that cost so much a second. */
export function mayHaveSlipped(words: readonly string[], snr: number, strangeness: number): boolean {
  if (snr >= LOUD_SNR) return false;
  return (strangeness > FAIR_READ_OUT && isReadOut(words)) || (strangeness > FAIR_FRAGILE && isFragile(words));
}

/** Whether a number in `words` may be another in spite of all passes. */
export const isSlippery = (words: readonly string[]): boolean => isFragile(words) || isReadOut(words);

/** Whether `words` hold a "for" before a number: it sounds as "four" does, and what follows may be all of a value or a place and one. */
export const isHomophone = (words: readonly string[]): boolean =>
  words.some((word, at) => word === "for" && isDigits(words[at + 1] ?? ""));

/**
 * Whether `words` (with roles) end in a digit said alone for a figure: so short a one may be the breath after a sentence that broke
 * off before it.
 */
export function isBreathLong(words: readonly string[]): boolean {
  const [last = "", before] = [words.at(-1), words.at(-2)];
  return before !== undefined && isFigure(last) && ONE_TO_NINE.has(plainWord(last)) && !isFigure(before);
}
