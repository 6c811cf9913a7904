// Sentences of the few quantities that are not said as name, place, value: nuts, slots, temperatures, flatness.
import { QUANTITIES } from "../../../shared/quantities/registry.ts";
import type { Quantity, QuantityId } from "../../../shared/quantities/types.ts";
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

const TORQUED = maybe(oneOf([words("torque"), words("torqued")]), 0.3);

function torque(spec: Spec): Phrase {
  const value = valuePhrase(QUANTITIES.fastener_torque, spec, false);
  const angle = valuePhrase(QUANTITIES.castle_nut_angle, spec, false);
  const short = oneOf([words("short"), words("short of the slot"), words("short of the hole"), words("past the slot")]);
  const nut = nutPlace(spec);
  const link = maybe(oneOf([words("at"), words("to")]), 0.3);
  return weighted(
    [chain(TORQUED, nut, link, value), 1],
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

const partAt = (): Phrase =>
  oneOf([
    chain(
      oneOf(["block", "crank", "room", "piston", "gauge", "head"].map(place)),
      oneOf([words("is at"), words("at"), words("temperature")]),
    ),
    chain(place("block's"), words("at")),
    words("temperature"),
  ]);

const temperature = (spec: Spec): Phrase => chain(partAt(), valuePhrase(QUANTITIES.part_temperature, spec, false));

const flatFace = (): Phrase => chain(oneOf([place("deck"), place("head")]), oneOf([words("flatness"), words("flat within")]));

const flatness = (spec: Spec): Phrase => chain(flatFace(), valuePhrase(QUANTITIES.flatness, spec, false));

const RING_POSITION = oneOf([words("ring position"), words("gap position")]);

function clock(spec: Spec): Phrase {
  const value = valuePhrase(QUANTITIES.ring_gap_clock, spec, false);
  const ring = slotPhrase("ring", spec.engine) ?? words("ring");
  return chain(RING_POSITION, upTo(spec.engine.cylinders), ring, value);
}

/** Sentences said in a way of their own: about which quantities, how they go, and how usual they are. */
interface OwnWay {
  readonly about: readonly QuantityId[];
  readonly sentence: (spec: Spec) => Phrase;
  readonly weight: number;
}

const OWN_WAYS: readonly OwnWay[] = [
  { about: ["fastener_torque", "castle_nut_angle"], sentence: torque, weight: 1 },
  { about: ["part_temperature"], sentence: temperature, weight: 1 },
  { about: ["flatness"], sentence: flatness, weight: 0.5 },
  { about: ["ring_gap_clock"], sentence: clock, weight: 0.2 },
];

/** Quantities whose places or names are said in a way of their own. */
export const SAID_OWN_WAY: ReadonlySet<QuantityId> = new Set(OWN_WAYS.flatMap(({ about }) => about));

/** What is said in a way of its own about these quantities; undefined when nothing is. */
export function ownWays(spec: Spec, quantities: readonly Quantity[]): Phrase | undefined {
  const ways = OWN_WAYS.filter(({ about }) => quantities.some(({ id }) => about.includes(id)));
  return ways.length === 0 ? undefined : weighted(...ways.map(({ sentence, weight }) => [sentence(spec), weight] as const));
}
