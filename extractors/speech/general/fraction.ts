// Fractions of general English: "two thirds", "a half", "thirty one thirty seconds", "one out of three".
import { groupAt } from "../numbers/groups.ts";
import { BENCH_DENOMINATORS, DENOMINATORS } from "../vocabulary/generalUnits.ts";
import type { GeneralWord } from "./words.ts";

export interface Piece {
  readonly value: number;
  readonly to: number;
}

/** First words of denominators said in two. */
const TWO_WORDS = new Set(["thirty", "sixty"]);

/** The denominator at i and where it ends; bench denominators (tenths and finer) only where "of a" follows. */
export function denominatorAt(words: readonly GeneralWord[], i: number): { d: number; to: number; many: boolean } | undefined {
  const word = words[i];
  if (word === undefined) return undefined;
  const next = words[i + 1];
  if (next !== undefined && !next.pause && TWO_WORDS.has(word.text)) {
    const two = `${word.text} ${next.text}`;
    const d = DENOMINATORS[two];
    if (d !== undefined) return { d, to: i + 2, many: two.endsWith("s") };
  }
  const d = Object.hasOwn(DENOMINATORS, word.text) ? DENOMINATORS[word.text] : undefined;
  if (d !== undefined) return { d, to: i + 1, many: word.text.endsWith("s") };
  const bench = Object.hasOwn(BENCH_DENOMINATORS, word.text) ? BENCH_DENOMINATORS[word.text] : undefined;
  // "five thousandths of a foot" divides the foot; tenths and hundredths stay the bench's.
  if (bench !== 1000 || words[i + 1]?.text !== "of" || words[i + 2]?.sense.kind !== "article") return undefined;
  return { d: bench, to: i + 1, many: word.text.endsWith("s") };
}

/** A fraction at i. */
export function generalFraction(words: readonly GeneralWord[], i: number): Piece | undefined {
  const article = words[i]?.sense.kind === "article";
  const at = article ? i + 1 : i;
  const alone = denominatorAt(words, at);
  const first = words[at]?.text ?? "";
  if (
    alone !== undefined &&
    (article || first === "half" || first === "quarter" || (first === "fourth" && words[at + 1]?.text === "of"))
  ) {
    return { value: 1 / alone.d, to: alone.to };
  }
  if (article) return undefined;
  const top = numerator(words, at);
  if (top === undefined) return undefined;
  const below = denominatorAt(words, top.to);
  // "thirty fourth" is a rank, "thirty fourths" a fraction; one of anything is said in the singular.
  if (below === undefined || (!below.many && top.value !== 1) || words[top.to]?.pause === true) return undefined;
  return { value: top.value / below.d, to: below.to };
}

/** The longest number before a denominator: "thirty one" before "thirty seconds". */
function numerator(words: readonly GeneralWord[], i: number): Piece | undefined {
  const group = groupAt(words, i, true);
  if (group === undefined) return undefined;
  // "one hundred and three quarters": the three belongs to the quarters.
  for (let j = group.from + 1; j < group.to; j++) {
    if (words[j]?.sense.kind === "and" && generalFraction(words, j + 1) !== undefined) return undefined;
  }
  return { value: Number(group.text), to: group.to };
}
