// Several words that are said in one go in, one entry of the recogniser's dictionary out; and back again.
import { STEPS } from "../../../shared/steps/steps.ts";
import { plainWord } from "./plain-word.ts";

const JOINT = "_";

/**
 * Said without a pause between them. Each state of a grammar costs time, whatever leads from it, and a state between two such words has
 * little else to do. Names of what is measured are not among them: who looks for the word stops in the middle. Nor are the words of a
 * figure: joined they fit a little better than one by one, and "eleven thou" was heard as "eleven and a half".
 */
const IN_ONE_GO: readonly string[] = [
  ...["just over", "just under", "less than", "more than", "call it"],
  ...["foot pounds", "inch pounds", "newton metres", "of a millimetre", "of an inch"],
  ...["take a", "say again", "say that again", "strike that", "strike the last one", "go to", "stop listening"],
  ...STEPS.flatMap(({ spoken }) => spoken).filter((name) => name.includes(" ")),
];

const entryOf = (words: readonly string[]) => words.join(JOINT);

/** Words by the entry they make together. */
export const JOINED: ReadonlyMap<string, readonly string[]> = new Map(
  [...new Set(IN_ONE_GO)].map((text) => text.split(" ")).map((words) => [entryOf(words), words] as const),
);

const BEGINNINGS: ReadonlySet<string> = new Set(
  [...JOINED.values()].flatMap((words) => words.slice(1).map((_, index) => entryOf(words.slice(0, index + 1)))),
);

/** What words with the same role mark come to together: an entry, the beginning of one, or neither. */
export function joinOf(words: readonly string[]): { readonly entry?: string; readonly isBeginning: boolean } {
  const [first = ""] = words;
  const mark = first.slice(plainWord(first).length);
  if (words.some((word) => word !== plainWord(word) + mark)) return { isBeginning: false };
  const together = entryOf(words.map(plainWord));
  const isBeginning = BEGINNINGS.has(together);
  return JOINED.has(together) ? { entry: together + mark, isBeginning } : { isBeginning };
}

/** The words of an entry, with its role mark; a word that is none by itself. */
export function apart(entry: string): readonly string[] {
  const plain = plainWord(entry);
  const mark = entry.slice(plain.length);
  return plain.includes(JOINT) ? plain.split(JOINT).map((word) => word + mark) : [entry];
}
