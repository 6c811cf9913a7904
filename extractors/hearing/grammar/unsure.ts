// Small lengths that are said to be no figure: about so much, less than so much, this or that. The parser asks about them; without a
// way of their own they would be heard as the figure they resemble.
import { anyOf, chain, maybe, oneOf, type Phrase, weighted, words } from "./automaton.ts";
import { belowHundred } from "./numbers.ts";

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
  anyOf(["a thou", "half a thou", "a few thou"]),
]);

/** Words that say that no figure follows. */
const LOOSELY = ["about", "around", "roughly", "nearly", "almost", "maybe", "probably", "not"];

const HEDGE = oneOf([
  anyOf([...LOOSELY, "less than", "more than", "not quite"]),
  anyOf(["at least", "at most"]),
  anyOf(["a good", "a full", "a tight", "call it"]),
  chain(anyOf(["just", "a bit", "a hair", "a touch", "a shade"]), anyOf(["over", "under"])),
]);

/** "Just under twelve thou", "between two and three thou". */
const hedged = chain(oneOf([HEDGE, chain(words("between"), figure, words("and"))]), ROUGH);

/**
 * The same words, as few as any other value needs so that none of the rest is accepted as a figure: each value has states of its own, and
 * the two words "a good" would take one in each ("good" has both as a way to be said).
 */
const FEW_HEDGES = oneOf([anyOf([...LOOSELY, "good", "call it"]), chain(words("just"), anyOf(["over", "under"]))]);

/** Any other value, or the same not to be relied on: "about forty foot pounds", "just under three eight seven nine". */
export const hedgedToo = (value: Phrase): Phrase => weighted([value, 1], [chain(FEW_HEDGES, value), UNSURE]);

const orAnother = chain(words("or"), figure, maybe(anyOf(["foot pounds", "pounds", "psi", "degrees", "grams"])));

/**
 * A sentence, or the same with the doubt at its end: "forty foot pounds or so", "fifty five or sixty pounds". After the whole of it and not
 * after each value: what ends a sentence is the same for all, and costs no states but its own.
 */
export const orSo = (sentence: Phrase): Phrase =>
  chain(
    sentence,
    maybe(oneOf([anyOf(["or so", "maybe", "probably", "roughly", "about", "at least", "at most"]), orAnother]), UNSURE),
  );

/** `length`, or what is not to be relied on; `whole` is its whole numbers, to be said before others: "twelve or thirteen thou". */
export const orUnsure = (length: Phrase, whole: Phrase): Phrase =>
  weighted([length, 1], [chain(whole, maybe(oneOf([thou, PARTS]), 0.2), anyOf(["or", "to"]), ROUGH), UNSURE], [hedged, UNSURE]);
