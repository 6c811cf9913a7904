// Words that telephone-band sound hardly tells apart: a sentence that holds one is heard more often before it counts.

const TEENS = /^(?:thir|four|fif|six|seven|eigh|nine)teen$/;
const TENS = /^(?:thirty|forty|fifty|sixty|seventy|eighty|ninety)$/;
const DIGITS = /^(?:one|two|three|four|five|six|seven|eight|nine)$/;

/** Whether `words` hold a number in -teen, or in -ty without a digit after it: fifteen is heard for fifty and the other way. */
export function isFragile(words: readonly string[]): boolean {
  return words.some((word, index) => TEENS.test(word) || (TENS.test(word) && !DIGITS.test(words[index + 1] ?? "")));
}
