// Registry, spec sheet and open context in; the grammar of what may be said next out.
import type { Context } from "../../../shared/events/reading.ts";
import { ALL_QUANTITIES, QUANTITIES } from "../../../shared/quantities/registry.ts";
import type { Spec } from "../../../shared/spec/spec.ts";
import { AutomatonBuilder, chain, type Phrase, type State, words } from "./automaton.ts";
import { CORRECTION_LEAD, commandPhrase } from "./commands.ts";
import { toFsg } from "./fsg.ts";
import { ownWays, slotSentence } from "./own-ways.ts";
import { impliedSentences, namedSentences, valueFirstSentences } from "./sentences.ts";
import { valuePhrase } from "./values.ts";

export interface Grammar {
  readonly start: State;
  /** Sphinx finite-state grammar text. */
  readonly fsg: string;
}

/** Beside an open quantity, sentences that name another are this much less usual. */
const OTHER_QUANTITY = 0.3;
/** Beside an open step, quantities of other steps are this much less usual. */
const OTHER_STEP = 0.3;

function* readings(spec: Spec, context: Context): Generator<readonly [Phrase, number]> {
  const metric = context.unit_system === "metric";
  const open = context.quantity;
  const whole = context.place !== undefined && Object.keys(context.place).length > 0;
  if (open !== undefined) {
    yield [impliedSentences(QUANTITIES[open], spec, metric), 1];
    if (open === "fastener_torque" || open === "castle_nut_angle") yield [slotSentence(spec), 0.5];
  }
  for (const quantity of ALL_QUANTITIES) {
    const named = namedSentences(quantity, spec, metric, whole);
    if (named === undefined) continue;
    const near = open === undefined ? 1 : open === quantity.id ? 1 : OTHER_QUANTITY;
    const step = context.step === undefined || quantity.steps.includes(context.step) ? 1 : OTHER_STEP;
    yield [named, near * step];
  }
  yield [valueFirstSentences(spec, whole), 0.3 * (open === undefined ? 1 : OTHER_QUANTITY)];
  yield [ownWays(spec), open === undefined ? 1 : OTHER_QUANTITY];
}

/** The grammar for what may be said with this engine, here and now. */
export function buildGrammar(spec: Spec, context: Context): Grammar {
  const metric = context.unit_system === "metric";
  const corrected = context.last?.quantity ?? context.quantity;
  const of: (readonly [Phrase, number])[] = [...readings(spec, context)];
  of.push([commandPhrase(spec, context.last !== undefined), 0.5]);
  if (corrected !== undefined) of.push([chain(CORRECTION_LEAD, valuePhrase(QUANTITIES[corrected], spec, metric)), 0.3]);
  of.push([words("note"), 0.3]);
  const builder = new AutomatonBuilder();
  const start = builder.compile({ kind: "choice", of });
  return { start, fsg: toFsg(start) };
}

/** Equal for contexts that have the same grammar. */
export function grammarKey(spec: Spec, { quantity, place, unit_system, last, step }: Context): string {
  const whole = place !== undefined && Object.keys(place).length > 0;
  return [spec.id, spec.version, quantity, whole, unit_system, last?.quantity, step].join("|");
}
