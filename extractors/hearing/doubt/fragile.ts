// Words that telephone-band sound hardly tells apart: a sentence that holds one is heard more often before it counts.

const TEENS = /^(?:thir|four|fif|six|seven|eigh|nine)teen$/;
const TENS = /^(?:thirty|forty|fifty|sixty|seventy|eighty|ninety)$/;
const DIGITS = /^(?:one|two|three|four|five|six|seven|eight|nine)$/;

/**
 * Whether `words` hold a number in -teen, or in -ty without a digit after it: fifteen is heard for fifty and the other way;
 * or end in a bare half: "eleven thou" is heard for "eleven and a half".
 */
export function isFragile(words: readonly string[]): boolean {
  if (words.at(-1) === "half") return true;
  return words.some((word, index) => TEENS.test(word) || (TENS.test(word) && !DIGITS.test(words[index + 1] ?? "")));
}

const ONE_DIGIT = new Set(["oh", "zero", "one", "two", "three", "four", "five", "six", "seven", "eight", "nine", "double"]);

/** Whether `words` end in a read-out of four digits or more: each digit is one more place to slip, and no band catches the last. */
export function isReadOut(words: readonly string[]): boolean {
  return words.length >= 4 && words.slice(-4).every((word) => ONE_DIGIT.has(word));
}
