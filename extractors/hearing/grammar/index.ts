// Registry, spec sheet and open context in; the automata of what may be said next out. All sentences that name what they are about are
// always open; what is open besides lets a figure be said alone.
import type { Context } from "../../../shared/events/reading.ts";
import { ALL_QUANTITIES, QUANTITIES } from "../../../shared/quantities/registry.ts";
import type { Spec } from "../../../shared/spec/spec.ts";
import { PHONES } from "../acoustic/phones.ts";
import { phoneWord } from "../words/dictionary.ts";
import { AutomatonBuilder, chain, type Phrase, type State, words } from "./automaton.ts";
import { CORRECTION_LEAD, commandPhrase } from "./commands.ts";
import { ownWays, slotSentence } from "./own-ways.ts";
import { impliedSentences, namedSentences, valueAndPlaceSentences, valueFirstSentences } from "./sentences.ts";
import { orSo } from "./unsure.ts";
import { valuePhrase } from "./values.ts";

/** Sentences from one start state, and how usual they are beside those of the other, as a share. */
export interface Grammar {
  readonly key: string;
  readonly share: number;
  readonly start: () => State;
}

type Weighted = readonly [Phrase, number];

/** With something open, so many sentences leave its name out. */
const OPEN_SHARE = 0.8;

/** Any speech at all, phone by phone, as follows "note": it is kept as sound. */
const ANY_SPEECH: Phrase = { kind: "loop", words: PHONES.map(phoneWord), weight: 0.25 };

const isMetric = ({ unit_system }: Context) => unit_system === "metric";
const isWhole = ({ place }: Context) => place !== undefined && Object.keys(place).length > 0;
/** The quantity that a value said alone would belong to. */
const openIn = ({ quantity, last }: Context) => quantity ?? last?.quantity;

const compile = (figures: readonly Weighted[], others: readonly Weighted[]): State =>
  new AutomatonBuilder().compile({ kind: "choice", of: [[orSo({ kind: "choice", of: figures }), 1], ...others] });

function* named(spec: Spec, metric: boolean): Generator<Weighted> {
  for (const quantity of ALL_QUANTITIES) {
    const sentences = namedSentences(quantity, spec, metric, false);
    if (sentences !== undefined) yield [sentences, 1];
  }
  const first = valueFirstSentences(spec, ALL_QUANTITIES, false);
  if (first !== undefined) yield [first, 0.3];
  const then = valueAndPlaceSentences(spec, ALL_QUANTITIES);
  if (then !== undefined) yield [then, 0.2];
  const own = ownWays(spec, ALL_QUANTITIES);
  if (own !== undefined) yield [own, 1];
}

/** Every sentence that needs nothing open: names with place and figure, commands, notes. */
const alwaysOpen = (spec: Spec, metric: boolean): State =>
  compile(
    [...named(spec, metric)],
    [
      [commandPhrase(spec, true), 0.5],
      [chain(words("note"), ANY_SPEECH), 0.1],
    ],
  );

/** What may be said of the open quantity without its name, and corrections of what was said last. */
function whatIsOpen(spec: Spec, context: Context): State {
  const metric = isMetric(context);
  const figures: Weighted[] = [];
  const { quantity: open } = context;
  if (open !== undefined) {
    figures.push([impliedSentences(QUANTITIES[open], spec, metric, isWhole(context)), 1]);
    if (open === "fastener_torque" || open === "castle_nut_angle") figures.push([slotSentence(spec), 0.5]);
  }
  const corrected = context.last?.quantity ?? open;
  if (corrected !== undefined) figures.push([chain(CORRECTION_LEAD, valuePhrase(QUANTITIES[corrected], spec, metric)), 0.3]);
  return compile(figures, []);
}

/** The grammars of what may be said with this engine, here and now. Equal keys have the same grammar. */
export function grammarsFor(spec: Spec, context: Context): readonly Grammar[] {
  const metric = isMetric(context);
  const sheet = `${spec.id}|${spec.version}|${metric}`;
  const isOpen = openIn(context) !== undefined;
  const always: Grammar = { key: sheet, share: isOpen ? 1 - OPEN_SHARE : 1, start: () => alwaysOpen(spec, metric) };
  if (!isOpen) return [always];
  const key = [sheet, context.quantity, context.last?.quantity, isWhole(context)].join("|");
  return [{ key, share: OPEN_SHARE, start: () => whatIsOpen(spec, context) }, always];
}
