// Small lengths that are said to be no figure: about so much, less than so much, this or that. The parser asks about them; without a
// way of their own they would be heard as the figure they resemble.
import { chain, maybe, oneOf, type Phrase, weighted, words } from "./automaton.ts";
import { belowHundred } from "./numbers.ts";

const either = (texts: readonly string[]): Phrase => oneOf(texts.map((text) => words(text)));

/** As seldom as this a figure is said to be none. */
export const UNSURE = 0.05;

/** Parts of a thou after whole ones, and what is none; what is not here is heard as what is. */
export const PARTS = weighted(
  [words("and a half"), 1],
  [words("and a quarter"), 0.2],
  [words("and three quarters"), 0.2],
  [words("and a bit"), UNSURE],
);

/** A part of a thou without its unit sounds much like a whole one with it: "eleven and a half", "eleven thou". */
export const BARE_PART = 0.08;

const figure = belowHundred((n) => (n > 0 ? 1 : 0));
const thou = words("thou");

/** Any small length. One for all that is asked about, whatever is gauged: one for each would have states of its own, and those cost time. */
export const ROUGH = oneOf([
  chain(figure, maybe(oneOf([thou, words("tenths"), chain(PARTS, maybe(thou, 1, BARE_PART))]))),
  either(["a thou", "half a thou"]),
]);

/** What begins with a word that says that no figure follows: "just under twelve thou", "between two and three thou". */
const hedged = chain(
  oneOf([
    either(["about", "around", "roughly", "nearly", "almost", "maybe", "probably", "less than", "more than", "not", "not quite"]),
    either(["a good", "a full", "a tight", "call it"]),
    chain(either(["just", "a bit", "a hair", "a touch", "a shade"]), either(["over", "under"])),
    chain(words("between"), figure, words("and")),
  ]),
  ROUGH,
);

/** `length`, or what is not to be relied on; `whole` is its whole numbers, to be said before others: "twelve or thirteen thou". */
export const orUnsure = (length: Phrase, whole: Phrase): Phrase =>
  weighted([length, 1], [chain(whole, maybe(oneOf([thou, PARTS]), 0.2), words("or"), ROUGH), UNSURE], [hedged, UNSURE]);
