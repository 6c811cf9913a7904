// Small lengths that are said to be no figure: about so much, less than so much, this or that. The parser asks about them; without a
// way of their own they would be heard as the figure they resemble.
import { chain, maybe, oneOf, type Phrase, weighted, words } from "./automaton.ts";
import { belowHundred } from "./numbers.ts";

/** Said before a figure. */
const NEARLY = [
  "about",
  "around",
  "nearly",
  "almost",
  "maybe",
  "just over",
  "just under",
  "a bit over",
  "a bit under",
  "a hair over",
  "a hair under",
  "less than",
  "more than",
];

/** Nobody is unsure of larger ones in thou. */
const MOST = 40;

/** As seldom as this a figure is said to be none. */
const UNSURE = 0.05;

const before = oneOf(NEARLY.map((text) => words(text)));
const figure = belowHundred((n) => (n > 0 && n <= MOST ? 1 : 0));
const thou = maybe(words("thou"), 0.2);

/**
 * `length` as it is, or not to be relied on: "just under twelve thou", "between two and three thou", "twelve or thirteen", "twelve and a
 * bit". The figure at the end is always `length` itself, so that the states of it are the same.
 */
export const orUnsure = (length: Phrase): Phrase =>
  weighted(
    [length, 1],
    [chain(before, length), UNSURE],
    [chain(words("between"), figure, words("and"), length), UNSURE],
    [chain(figure, thou, words("or"), length), UNSURE],
    [chain(figure, thou, words("and a bit"), thou), UNSURE / 2],
  );
