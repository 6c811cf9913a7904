// Registry, spec sheet and open context in; the grammar of what may be said next out.
import type { Context } from "../../../shared/events/reading.ts";
import { ALL_QUANTITIES, QUANTITIES } from "../../../shared/quantities/registry.ts";
import type { Quantity, QuantityId } from "../../../shared/quantities/types.ts";
import type { Spec } from "../../../shared/spec/spec.ts";
import { likeness } from "../words/alike.ts";
import { phoneWord } from "../words/dictionary.ts";
import { plainWord } from "../words/plain-word.ts";
import { AutomatonBuilder, chain, oneOf, type Phrase, type State, words } from "./automaton.ts";
import { CORRECTION_LEAD, commandPhrase } from "./commands.ts";
import { toFsg } from "./fsg.ts";
import { ownWays, slotSentence } from "./own-ways.ts";
import {
  impliedSentences,
  namedSentences,
  namelessSentences,
  openings,
  valueAndPlaceSentences,
  valueFirstSentences,
} from "./sentences.ts";
import { orSo } from "./unsure.ts";
import { valuePhrase } from "./values.ts";
import { BROKEN_OFF } from "./weights.ts";

export interface Grammar {
  readonly start: State;
  /** Sphinx finite-state grammar text, made when it is asked for: of everything that takes longer than all else, and is seldom set. */
  readonly fsg: string;
}

/**
 * `near`: what the open quantity and step make likely. `about`: sentences that name one of these quantities, once the name was heard.
 * `all`: everything the registry has, which is too large to be heard in but to calibrate.
 */
export type Scope = "near" | "all" | About;

export interface About {
  readonly about: readonly QuantityId[];
  /** Whether the figure may have been said before the name. */
  readonly figureFirst?: boolean;
}

/** Beside an open quantity or step, others are this much less usual. */
const OTHER = 0.3;
/** With quantity and place open, the name is said as seldom. */
const NAMED_ANYHOW = 0.05;
/** Weight of the beginnings of sentences about other things, whose rest is any speech. */
const ELSEWHERE = 0.1;

/**
 * What any speech is made of, roughly: a phone for each kind of sound. With all of the model's 39 a look takes a quarter longer, because
 * every sound is scored for as long as somebody speaks, and finds no more (of 121 looks in eight tuning voices the scope was another in
 * one); what a stand-in costs more, its weight gives back.
 */
const ROUGH_PHONES = ["AH", "IH", "EY", "AO", "UW", "S", "T", "N", "R", "F", "D", "M"].map(phoneWord);

/** Any speech at all, phone by phone; each phone costs, so that words of the grammar win where they fit. */
const ANY_SPEECH: Phrase = { kind: "loop", words: ROUGH_PHONES, weight: 0.25 };

/** The rest of a sentence about another thing: dearer, so that it never wins where what is open fits at all. */
const OTHER_PHONE: Phrase = { kind: "choice", of: ROUGH_PHONES.map((word) => [words(word), 0.1] as const) };
const OTHER_PHONES: Phrase = { kind: "loop", words: ROUGH_PHONES, weight: 0.1 };

/**
 * What follows a name is no shorter than a figure, and after a short name than a place and a figure: "wrong" said alone is not
 * "throw" with a breath after it.
 */
const REST_OF_ANOTHER = chain(OTHER_PHONE, OTHER_PHONE, OTHER_PHONE, OTHER_PHONES);
const REST_AFTER_SHORT = chain(OTHER_PHONE, OTHER_PHONE, REST_OF_ANOTHER);

const isNear = (quantity: Quantity, { quantity: open, step }: Context) =>
  quantity.id === open || (step !== undefined && quantity.steps.includes(step));

const isWhole = ({ place }: Context) => place !== undefined && Object.keys(place).length > 0;

function* openSentences(spec: Spec, context: Context): Generator<readonly [Phrase, number]> {
  const metric = context.unit_system === "metric";
  const open = context.quantity;
  if (open !== undefined) {
    yield [impliedSentences(QUANTITIES[open], spec, metric, isWhole(context)), 1];
    if (open === "fastener_torque" || open === "castle_nut_angle") yield [slotSentence(spec), 0.5];
  }
  const corrected = context.last?.quantity ?? open;
  if (corrected !== undefined) yield [chain(CORRECTION_LEAD, valuePhrase(QUANTITIES[corrected], spec, metric)), 0.3];
}

function* commands(spec: Spec, context: Context): Generator<readonly [Phrase, number]> {
  yield [commandPhrase(spec, context.last !== undefined), 0.5];
  // What follows "note" is kept as sound: no grammar has its words.
  yield [chain(words("note"), ANY_SPEECH), 0.1];
}

function* readings(spec: Spec, context: Context, scope: "near" | "all"): Generator<readonly [Phrase, number]> {
  const metric = context.unit_system === "metric";
  const whole = isWhole(context);
  const focused = isFocused(context);
  const quantities = ALL_QUANTITIES.filter((quantity) => scope === "all" || isNear(quantity, context));
  for (const quantity of quantities) {
    const named = namedSentences(quantity, spec, metric, whole);
    // With quantity and place open a value is said alone, and a name heard before it is mostly a breath.
    const said = whole && quantity.id === context.quantity;
    const weight = focused && !isNear(quantity, context) ? OTHER : 1;
    if (named !== undefined) yield [named, said ? NAMED_ANYHOW : weight];
  }
  const rest = focused && scope === "all" ? OTHER : 1;
  const first = valueFirstSentences(spec, quantities, whole);
  if (first !== undefined) yield [first, 0.3 * rest];
  const then = valueAndPlaceSentences(spec, quantities);
  if (then !== undefined) yield [then, 0.2 * rest];
  const own = ownWays(spec, quantities);
  if (own !== undefined) yield [own, rest];
}

/** A sentence about another thing must have a way of its own, or it is bent to what is open. */
function* beginnings(spec: Spec, context: Context): Generator<readonly [Phrase, number]> {
  const others = ALL_QUANTITIES.filter((quantity) => !isNear(quantity, context));
  const { long, short, alone } = openings(others, spec);
  yield [oneOf([chain(long, REST_OF_ANOTHER), chain(short, REST_AFTER_SHORT)]), ELSEWHERE];
  yield [alone, ELSEWHERE * BROKEN_OFF];
}

/** Sentences that name one of the quantities `about`; those that name none, where there are none. */
function* namedReadings(
  spec: Spec,
  context: Context,
  { about, figureFirst = false }: About,
): Generator<readonly [Phrase, number]> {
  if (about.length === 0) yield* namelessSentences(spec);
  const quantities = about.map((id) => QUANTITIES[id]);
  for (const quantity of quantities) {
    const named = namedSentences(quantity, spec, context.unit_system === "metric", isWhole(context));
    if (named !== undefined) yield [named, 1];
  }
  const first = figureFirst ? valueFirstSentences(spec, quantities, isWhole(context)) : undefined;
  if (first !== undefined) yield [first, 0.3];
  const then = valueAndPlaceSentences(spec, quantities);
  if (then !== undefined) yield [then, 0.2];
  const own = ownWays(spec, quantities);
  if (own !== undefined) yield [own, 1];
}

/** The grammar for what may be said with this engine, here and now. */
export function buildGrammar(spec: Spec, context: Context, scope: Scope = "all"): Grammar {
  const figures =
    typeof scope === "string"
      ? [...openSentences(spec, context), ...readings(spec, context, scope)]
      : [...namedReadings(spec, context, scope)];
  const others = [
    ...(typeof scope === "string" ? commands(spec, context) : []),
    ...(scope === "near" ? beginnings(spec, context) : []),
  ];
  const start = new AutomatonBuilder().compile({ kind: "choice", of: [[orSo({ kind: "choice", of: figures }), 1], ...others] });
  let text: string | undefined;
  return {
    start,
    get fsg() {
      text ??= toFsg(start);
      return text;
    },
  };
}

/** Whether something is open that a value said alone would belong to. */
export const isFocused = ({ quantity, step }: Context): boolean => quantity !== undefined || step !== undefined;

/**
 * Names that share so many of their phones are heard for one another where the rest of the sentence is any speech: "bored" for
 * "bore", "side" for "guide".
 */
const SAME_NAME = 0.66;

const isNamed = ({ spoken }: Quantity, name: string) => spoken.some((other) => likeness(name, other) >= SAME_NAME);

/**
 * Quantities that the beginning of a sentence (words with roles) names, or nearly. The noun of a place may be a name as well: of
 * "crankpin four, one eight" the figures are heard for "crankpin four weight" where no reading of a crankpin is open.
 */
export function namedIn(beginning: readonly string[]): readonly QuantityId[] {
  const name = beginning.filter((word) => word === plainWord(word)).join(" ");
  const nouns = beginning.filter((word) => word !== plainWord(word)).map((word) => plainWord(word));
  return ALL_QUANTITIES.filter((quantity) => isNamed(quantity, name) || nouns.some((noun) => quantity.spoken.includes(noun))).map(
    ({ id }) => id,
  );
}

/**
 * The context for hearing among everything. With something open the last reading is left out: corrections are heard in what
 * is open, and the large grammar stays the same from one reading to the next.
 */
export function withoutFocus(context: Context): Context {
  const { quantity: _quantity, step: _step, last: _last, ...rest } = context;
  return isFocused(context) ? rest : context;
}

/** Equal for contexts that have the same grammar. */
export function grammarKey(spec: Spec, context: Context, scope: Scope): string {
  const { quantity, unit_system, last, step } = context;
  const sheet = [spec.id, spec.version, unit_system, isWhole(context)];
  if (typeof scope !== "string") return [...sheet, scope.figureFirst, ...scope.about].join("|");
  return [...sheet, scope, quantity, last?.quantity, step].join("|");
}
