// Everything's automaton in, the small grammar of sentences in outline out: the names of what may be measured, and around each of them the
// words of places and of figures in any order. What a sentence is about is heard by that in less than half of the time that everything takes.
import { ALL_QUANTITIES } from "../../../shared/quantities/registry.ts";
import type { Quantity, QuantityId, Scale } from "../../../shared/quantities/types.ts";
import type { Spec } from "../../../shared/spec/spec.ts";
import { isFigure } from "../text.ts";
import { isNumberWord } from "../words/numbers.ts";
import { plainWord } from "../words/plain-word.ts";
import { AutomatonBuilder, oneOf, type Phrase, type State } from "./automaton.ts";
import { residualsFrom, transition, wordsOf } from "./fsg.ts";
import { PLACE, placePhrases } from "./places.ts";
import { openings } from "./sentences.ts";
import { leadingKey } from "./values.ts";

/** How usual each word of a place or of a figure is, whichever came before it. */
const ANY_WORD = 0.1;
/** How usual it is to begin with the figure, beside the name, and to end with the place. */
const FIGURE_FIRST = 0.3;
const PLACE_LAST = 0.3;
/** And to leave the name out, which comes to a question. */
const NAMELESS = 0.03;

/** Quantities whose figures are said in the same words. */
interface Family {
  readonly scales: readonly Scale[];
  /** Of another scale, but said so too. */
  readonly also?: QuantityId;
  /** Words of their figures beside the numbers; those that say that it is none, and what is seldom said, only cost time. */
  readonly words: readonly string[];
}

const SMALL: Family = {
  scales: ["thou", "small_word", "tenths_word"],
  words: ["a", "and", "half", "over", "point", "tenth", "tenths", "thou", "under"],
};
const FRACTION: Family = {
  scales: ["fraction"],
  also: "stroke",
  words: [
    "a",
    "and",
    "eighth",
    "eighths",
    "fourths",
    "half",
    "inch",
    "quarter",
    "quarters",
    "seconds",
    "sixteenth",
    "sixteenths",
  ],
};
const READ_OUT: Family = { scales: ["inch_digits"], words: ["point"] };
const PLAIN: Family = {
  scales: ["plain"],
  words: ["a", "and", "at", "cc", "degrees", "foot", "grams", "half", "point", "pounds", "psi", "quarters"],
};

/** What may join a place to what came before it; it is neither of the place nor of the name. */
export const ON = "on";

const compiled = (phrase: Phrase): State => new AutomatonBuilder().compile(phrase);

/** Sphinx FSG text while it is written. */
class Outline {
  readonly #lines: string[] = [];
  #states = 0;

  state(): number {
    return this.#states++;
  }

  skip(from: number, to: number, weight = 1): void {
    this.#lines.push(transition(from, to, weight));
  }

  /** Each of the words, from a state to another, or any number of them where that is the same. */
  each(from: number, to: number, words: readonly string[]): void {
    for (const word of words) this.#lines.push(transition(from, to, ANY_WORD, word));
  }

  /** What a phrase says, each sentence of it from the state that is given back to `to`. */
  phrase(phrase: Phrase, to: number): number {
    const residuals = residualsFrom(compiled(phrase));
    const first = this.#states;
    this.#states += residuals.length;
    residuals.forEach(({ ways, final }, at) => {
      for (const { word, to: next, weight } of ways) this.#lines.push(transition(first + at, first + next, weight, word));
      if (final > 0) this.skip(first + at, to, final);
    });
    return first;
  }

  text(begin: number, end: number): string {
    const head = ["FSG_BEGIN outline", `NUM_STATES ${this.#states}`, `START_STATE ${begin}`, `FINAL_STATE ${end}`];
    return [...head, ...this.#lines, "FSG_END", ""].join("\n");
  }
}

/** Words that the places of these quantities are said in. */
function placesOf(quantities: readonly Quantity[], spec: Spec): readonly string[] {
  const places = quantities.flatMap((quantity) => placePhrases(quantity, spec.engine) ?? []);
  return wordsOf(compiled(oneOf(places.flatMap(({ after, trailing }) => [after, trailing])))).filter((word) =>
    word.endsWith(PLACE),
  );
}

/** Sphinx FSG text of the sentences about anything in outline; `everything` is where the grammar of everything starts. */
export function outlineFsg(everything: State, spec: Spec): string {
  const outline = new Outline();
  const [begin, end] = [outline.state(), outline.state()];
  const said = wordsOf(everything);
  for (const { scales, also, words } of [SMALL, FRACTION, READ_OUT, PLAIN]) {
    const quantities = ALL_QUANTITIES.filter(({ id, scale }) => scales.includes(scale) || id === also);
    const places = placesOf(quantities, spec);
    const figures = said.filter((word) => isFigure(word) && (isNumberWord(word) || words.includes(plainWord(word))));
    const [figureFirst, place, figure, placeLast] = [outline.state(), outline.state(), outline.state(), outline.state()];
    const [afterName, afterShort, soonAfter] = [outline.state(), outline.state(), outline.state()];
    outline.each(placeLast, placeLast, places);
    outline.skip(placeLast, end);
    outline.each(figureFirst, figureFirst, figures);
    outline.each(place, place, places);
    outline.skip(place, figure);
    outline.each(figure, figure, figures);
    outline.skip(figure, placeLast, PLACE_LAST);
    outline.skip(figure, end);
    outline.each(afterName, place, [ON]);
    outline.skip(afterName, place);
    outline.each(figure, placeLast, [ON]);
    // Little said after a short name is mostly something else: "wrong" is not "throw", nor "throw one".
    outline.each(afterShort, soonAfter, [ON, ...places, ...figures]);
    outline.each(soonAfter, place, places);
    outline.each(soonAfter, figure, figures);
    outline.skip(begin, figureFirst, FIGURE_FIRST);
    for (const isLed of [true, false]) {
      const alike = quantities.filter((quantity) => isLed === (leadingKey(quantity) !== undefined));
      if (alike.length === 0) continue;
      const { long, short } = openings(alike, spec);
      for (const name of [outline.phrase(long, afterName), outline.phrase(short, afterShort)]) {
        outline.skip(begin, name);
        if (isLed) outline.skip(figureFirst, name);
      }
    }
    if (scales.includes("thou")) outline.skip(begin, place, NAMELESS);
  }
  return outline.text(begin, end);
}
