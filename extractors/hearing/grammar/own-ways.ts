// Sentences of the few quantities that are not said as name, place, value: nuts, slots, temperatures, flatness.
import { QUANTITIES } from "../../../shared/quantities/registry.ts";
import type { Spec } from "../../../shared/spec/spec.ts";
import { chain, maybe, oneOf, type Phrase, tagged, weighted, words } from "./automaton.ts";
import { countTo, PLACE, slotPhrase } from "./places.ts";
import { valuePhrase } from "./values.ts";
import { BROKEN_OFF, SELDOM } from "./weights.ts";

const place = (text: string) => tagged(words(text), PLACE);
const upTo = (count: number) => tagged(countTo(count), PLACE);

/** "rod two nut B", "main one nut A", "head nut five". */
function nutPlace(spec: Spec): Phrase {
  const { engine } = spec;
  const nut = slotPhrase("nut", engine) ?? words("nut");
  return oneOf([
    chain(place("rod"), upTo(engine.cylinders), nut),
    chain(place("main"), upTo(engine.mains), nut),
    chain(place("head nut"), upTo(Math.min(99, engine.headNuts))),
  ]);
}

function torque(spec: Spec): Phrase {
  const value = valuePhrase(QUANTITIES.fastener_torque, spec, false);
  const angle = valuePhrase(QUANTITIES.castle_nut_angle, spec, false);
  const short = oneOf([words("short"), words("short of the slot"), words("short of the hole"), words("past the slot")]);
  const nut = nutPlace(spec);
  const name = maybe(oneOf([words("torque"), words("torqued")]), 0.3);
  const link = maybe(oneOf([words("at"), words("to")]), 0.3);
  return weighted(
    [chain(name, nut, link, value), 1],
    [nut, BROKEN_OFF],
    [chain(nut, angle, short), 1],
    [chain(nut, value, angle, short), SELDOM],
  );
}

/** With a nut open: "twenty-two degrees short of the slot", "thirty-five foot pounds". */
export function slotSentence(spec: Spec): Phrase {
  return chain(
    valuePhrase(QUANTITIES.castle_nut_angle, spec, false),
    oneOf([words("short"), words("short of the slot"), words("short of the hole")]),
  );
}

function temperature(spec: Spec): Phrase {
  const value = valuePhrase(QUANTITIES.part_temperature, spec, false);
  const part = oneOf(["block", "crank", "room", "piston", "gauge", "head"].map(place));
  return oneOf([
    chain(part, oneOf([words("is at"), words("at"), words("temperature")]), value),
    chain(place("block's"), words("at"), value),
    chain(words("temperature"), value),
  ]);
}

function flatness(spec: Spec): Phrase {
  const value = valuePhrase(QUANTITIES.flatness, spec, false);
  return chain(oneOf([place("deck"), place("head")]), oneOf([words("flatness"), words("flat within")]), value);
}

function clock(spec: Spec): Phrase {
  const value = valuePhrase(QUANTITIES.ring_gap_clock, spec, false);
  const ring = slotPhrase("ring", spec.engine) ?? words("ring");
  return chain(oneOf([words("ring position"), words("gap position")]), upTo(spec.engine.cylinders), ring, value);
}

/** Everything said in a way of its own. */
export function ownWays(spec: Spec): Phrase {
  return weighted([torque(spec), 1], [temperature(spec), 1], [flatness(spec), 0.5], [clock(spec), 0.2]);
}
