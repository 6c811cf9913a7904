// A heard sentence in, the other sentences of the grammar that say the same in nearly the same sounds out.
import { DIGITS, ONE_TO_NINE, TENS } from "../words/numbers.ts";
import { plainWord } from "../words/plain-word.ts";
import type { State } from "./automaton.ts";

/** Names that are written in one word and in two. */
const IN_TWO: ReadonlyMap<string, readonly string[]> = new Map([
  ["crankpin", ["crank", "pin"]],
  ["runout", ["run", "out"]],
]);

/** A number and the word that sounds just like it. */
const [NUMBER, SAME_SOUND] = ["four", "for"] as const;

/** The ten that a digit makes with the next: in a read-out "eight seven" and "eighty seven" are the same two digits. */
const TEN_OF: ReadonlyMap<string, string> = new Map(TENS.map((ten, index) => [DIGITS[index + 2] ?? "", ten] as const));

/** How the beginning of `words` (without roles) may be said, and how many of the words that is. */
function* beginnings([first = "", second = ""]: readonly string[]): Generator<readonly [readonly string[], number]> {
  yield [[first], 1];
  if (first === NUMBER) yield [[SAME_SOUND], 1];
  const parts = IN_TWO.get(first);
  if (parts !== undefined) yield [parts, 1];
  for (const [whole, [one, two]] of IN_TWO) if (first === one && second === two) yield [[whole], 2];
  if (!ONE_TO_NINE.has(second)) return;
  const ten = TEN_OF.get(first);
  if (ten !== undefined) yield [[ten, second], 2];
  const digit = [...TEN_OF].find(([, other]) => other === first)?.[0];
  if (digit !== undefined) yield [[digit, second], 2];
}

/** Whether two sentences (words, roles or not) sound just the same. */
export function soundSame(one: readonly string[], other: readonly string[]): boolean {
  const sound = (word: string) => (plainWord(word) === SAME_SOUND ? NUMBER : plainWord(word));
  return one.length === other.length && one.every((word, index) => sound(word) === sound(other[index] ?? ""));
}

/**
 * Every way through the grammar, roles included, that says `words` (without roles) or what may come to the same and sounds nearly so.
 * Whether it does come to the same is for who asks to find out: "three eight seven" may be a length, and "three eighty seven" too.
 */
export function* otherWays(start: State, words: readonly string[]): Generator<readonly string[]> {
  if (words.length === 0) {
    if (start.final > 0) yield [];
    return;
  }
  for (const [said, count] of beginnings(words))
    for (const [arcs, state] of along(start, said))
      for (const rest of otherWays(state, words.slice(count))) yield [...arcs, ...rest];
}

/** The ways on from `state` that say `words`, and where they lead. */
function* along(state: State, [first, ...rest]: readonly string[]): Generator<readonly [readonly string[], State]> {
  if (first === undefined) {
    yield [[], state];
    return;
  }
  for (const { word, to } of state.arcs)
    if (plainWord(word) === first) for (const [arcs, end] of along(to, rest)) yield [[word, ...arcs], end];
}
