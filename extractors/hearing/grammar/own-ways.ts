// Sentences of the few quantities that are not said as name, place, value: nuts, slots, temperatures, flatness.
import { valuesOf } from "../../../shared/places/places.ts";
import { QUANTITIES } from "../../../shared/quantities/registry.ts";
import type { Quantity, QuantityId } from "../../../shared/quantities/types.ts";
import type { Spec } from "../../../shared/spec/spec.ts";
import { NOUN_WORDS } from "../../speech/vocabulary/places.ts";
import { anyOf, chain, EMPTY, maybe, oneOf, type Phrase, tagged, weighted, words } from "./automaton.ts";
import { COUNTED, countTo, numbered, PLACE, slotPhrase } from "./places.ts";
import { signedFigure, VALUE, valuePhrase } from "./values.ts";
import { saidApart } from "./vocabulary.ts";
import { BROKEN_OFF, SELDOM } from "./weights.ts";

const place = (text: string) => tagged(words(text), PLACE);
const upTo = (count: number) => tagged(countTo(count), PLACE);

const spoken = (id: QuantityId): Phrase => anyOf(saidApart(QUANTITIES[id].spoken));

/** "rod two nut B", "main one nut A", "head nut five". */
function nutPlace(spec: Spec): Phrase {
  const { engine } = spec;
  const nut = slotPhrase("nut", engine) ?? words("nut");
  const nuts = tagged(anyOf(NOUN_WORDS.nut.filter((noun) => !noun.endsWith("s"))), PLACE);
  return oneOf([
    chain(place("rod"), upTo(engine.cylinders), nut),
    chain(place("main"), upTo(engine.mains), nut),
    chain(place("head"), nuts, upTo(Math.min(99, engine.headNuts))),
  ]);
}

const TORQUED = oneOf([words("torque"), words("torqued")]);

function torque(spec: Spec): Phrase {
  const value = valuePhrase(QUANTITIES.fastener_torque, spec, false);
  const angle = valuePhrase(QUANTITIES.castle_nut_angle, spec, false);
  const short = spoken("castle_nut_angle");
  const nut = nutPlace(spec);
  // No nut is read beyond its slot: the parser asks.
  const past = words("past the slot");
  const link = maybe(oneOf([words("at"), words("to")]), 0.3);
  const on = maybe(words("on"));
  return weighted(
    [chain(maybe(TORQUED, 0.3), nut, link, value), 1],
    [nut, BROKEN_OFF],
    [chain(nut, angle, short), 1],
    [chain(nut, angle, past), SELDOM],
    [chain(nut, value, angle, short), SELDOM],
    [chain(value, on, nut), SELDOM],
    [chain(angle, short, maybe(chain(on, nut))), SELDOM],
    [chain(TORQUED, value), UNPLACED],
  );
}

/** What needs a place and is said without one is asked about. */
const UNPLACED = 0.05;

/** With a nut open: "twenty-two degrees short of the slot", "thirty-five foot pounds". */
export const slotSentence = (spec: Spec): Phrase =>
  chain(valuePhrase(QUANTITIES.castle_nut_angle, spec, false), spoken("castle_nut_angle"));

const part = (spec: Spec): Phrase => slotPhrase("part", spec.engine) ?? words("part");

const partAt = (spec: Spec): Phrase =>
  oneOf([
    chain(part(spec), oneOf([spoken("part_temperature"), words("at")])),
    chain(place("block's"), words("at")),
    words("temperature"),
  ]);

const temperature = (spec: Spec): Phrase => chain(partAt(spec), valuePhrase(QUANTITIES.part_temperature, spec, false));

/** "Left head", "head two": which of several, where the engine has several. */
function ofSeveral(spec: Spec): Phrase {
  const bank = slotPhrase("bank", spec.engine);
  const heads = valuesOf("head", spec, {}).length;
  const head = anyOf(saidApart(NOUN_WORDS.head));
  const plain = chain(bank === undefined ? EMPTY : maybe(bank), part(spec));
  return heads < 2 ? plain : oneOf([plain, tagged(chain(head, countTo(heads)), PLACE)]);
}

const flatFace = (spec: Spec): Phrase => chain(maybe(ofSeveral(spec), 1, UNPLACED), spoken("flatness"));

const flatness = (spec: Spec): Phrase => chain(flatFace(spec), valuePhrase(QUANTITIES.flatness, spec, false));

function clock(spec: Spec): Phrase {
  const value = valuePhrase(QUANTITIES.ring_gap_clock, spec, false);
  const ring = slotPhrase("ring", spec.engine) ?? words("ring");
  return chain(spoken("ring_gap_clock"), upTo(spec.engine.cylinders), maybe(ring, 1, UNPLACED), value);
}

/** "Head crack a quarter of an inch", "quarter inch crack in the head", "crack a quarter inch long in the head". */
function crack(spec: Spec): Phrase {
  const value = valuePhrase(QUANTITIES.crack_indication, spec, false);
  const counted = oneOf(COUNTED.map((slot) => numbered(slot, spec.engine, true)));
  const at = chain(oneOf([words("in"), words("on")]), maybe(words("the")), oneOf([part(spec), counted]));
  const name = spoken("crack_indication");
  return oneOf([
    chain(maybe(part(spec)), name, maybe(at), maybe(value, 1, BROKEN_OFF)),
    chain(name, value, at),
    chain(value, name, maybe(at)),
  ]);
}

/** "Mains ground ten thou undersize". */
const ground = (spec: Spec): Phrase =>
  chain(
    anyOf(saidApart([...NOUN_WORDS.journal, ...NOUN_WORDS.crankpin, ...NOUN_WORDS.main].filter((noun) => noun.endsWith("s")))),
    words("ground"),
    valuePhrase(QUANTITIES.journal_undersize, spec, false),
  );

/** "Piston three is sixteen thou proud": which way it goes tells what it is. */
const proud = (spec: Spec): Phrase =>
  chain(
    place("piston"),
    upTo(spec.engine.cylinders),
    maybe(tagged(oneOf([words("is"), words("sits")]), VALUE)),
    signedFigure(QUANTITIES.deck_protrusion, spec),
  );

const RUN_IN = ["run_in_time", "run_in_speed", "run_in_load", "run_in_temperature"] as const;
const STAGES = 9;

/** "Run in speed stage two, twelve hundred", "stage two run in load fifty percent"; of the whole, no stage is said. */
function runIn(spec: Spec): Phrase {
  const stage = tagged(chain(words("stage"), countTo(STAGES)), PLACE);
  const said = RUN_IN.map((id) =>
    chain(
      words(id.slice("run_in_".length)),
      maybe(stage),
      maybe(words("is"), BROKEN_OFF),
      valuePhrase(QUANTITIES[id], spec, false),
    ),
  );
  return chain(maybe(stage), oneOf([words("run in"), words("running in")]), oneOf(said));
}

/** Sentences said in a way of their own: about which quantities, how they go, and how usual they are. */
interface OwnWay {
  readonly about: readonly QuantityId[];
  readonly sentence: (spec: Spec) => Phrase;
  readonly weight: number;
  /** Whether it is said in the usual way as well. */
  readonly too?: true;
}

const OWN_WAYS: readonly OwnWay[] = [
  { about: ["fastener_torque", "castle_nut_angle"], sentence: torque, weight: 1 },
  { about: ["part_temperature"], sentence: temperature, weight: 1 },
  { about: ["flatness"], sentence: flatness, weight: 0.5 },
  { about: ["ring_gap_clock"], sentence: clock, weight: 0.2 },
  { about: RUN_IN, sentence: runIn, weight: 0.2 },
  { about: ["crack_indication"], sentence: crack, weight: 0.2 },
  { about: ["journal_undersize"], sentence: ground, weight: 0.2, too: true },
  { about: ["deck_protrusion"], sentence: proud, weight: 0.2, too: true },
];

/** Quantities whose places or names are said in a way of their own. */
export const SAID_OWN_WAY: ReadonlySet<QuantityId> = new Set(OWN_WAYS.flatMap(({ about, too }) => (too ? [] : about)));

/** What is said in a way of its own about these quantities; undefined when nothing is. */
export function ownWays(spec: Spec, quantities: readonly Quantity[]): Phrase | undefined {
  const ways = OWN_WAYS.filter(({ about }) => quantities.some(({ id }) => about.includes(id)));
  return ways.length === 0 ? undefined : weighted(...ways.map(({ sentence, weight }) => [sentence(spec), weight] as const));
}
