// A quantity in, the sentences that report it out: name, place and value in the orders a machinist says them.

import { QUANTITIES } from "../../../shared/quantities/registry.ts";
import type { Quantity, QuantityId } from "../../../shared/quantities/types.ts";
import type { Engine, Spec } from "../../../shared/spec/spec.ts";
import { isSayable } from "../words/dictionary.ts";
import { chain, maybe, oneOf, type Phrase, tagged, weighted, words } from "./automaton.ts";
import { belowHundred } from "./numbers.ts";
import { SAID_OWN_WAY } from "./own-ways.ts";
import { countTo, PLACE, type PlacePhrases, placePhrases } from "./places.ts";
import { ROUGH } from "./unsure.ts";
import { leadingKey, leadingValue, VALUE, valuePhrase } from "./values.ts";
import { BROKEN_OFF } from "./weights.ts";

/** Names by which a quantity may be called; the first is the most usual. */
const nameOf = (quantity: Quantity): Phrase =>
  weighted(...quantity.spoken.filter(isSayable).map((name, index) => [words(name), index < 2 ? 1 : 0.5] as const));

/** Form readings that are said right after the diameter they belong to. */
const TRAILS: Readonly<Partial<Record<QuantityId, QuantityId>>> = {
  main_journal_diameter: "journal_out_of_round",
  crankpin_diameter: "journal_out_of_round",
};

const trail = (quantity: Quantity, spec: Spec, metric: boolean): Phrase | undefined => {
  const id = TRAILS[quantity.id];
  return id === undefined ? undefined : chain(valuePhrase(QUANTITIES[id], spec, metric), words("out of round"));
};

/** Read-outs are long; the place is said before them, but for the valves, where either order is usual. */
const trailsPlace = (quantity: Quantity) =>
  leadingKey(quantity) !== "small" && (quantity.scale !== "inch_digits" || quantity.needs.includes("valve"));

/**
 * Between a place and its figure. Without them their sounds are heard for one more word of the place; "at" is easily heard before
 * "eighteen".
 */
const VERB = tagged(weighted([words("is"), 1], [words("was"), 1], [words("at"), 0.3]), VALUE);
const VERB_SAID = 0.03;

function placedSentences(
  quantity: Quantity,
  name: Phrase,
  value: Phrase,
  place: PlacePhrases,
): readonly (readonly [Phrase, number])[] {
  const figure = maybe(value, 1, BROKEN_OFF);
  const of: (readonly [Phrase, number])[] = [
    [chain(name, place.after, figure), 1],
    [chain(name, place.after, VERB, value), VERB_SAID],
  ];
  if (trailsPlace(quantity)) of.push([chain(name, value, place.trailing), 0.5]);
  if (place.before !== undefined) of.push([chain(place.before, name, figure), 1]);
  return of;
}

/** "oil ring gap": the ring said before the name that holds the word ring. */
function ringAndName(quantity: Quantity, engine: Engine): readonly Phrase[] {
  if (!quantity.needs.includes("ring")) return [];
  const ring = tagged(oneOf(engine.rings.map((id) => words(id))), PLACE);
  const names = quantity.spoken.filter((name) => name.startsWith("ring ") && isSayable(name));
  return names.length === 0 ? [] : [chain(ring, oneOf(names.map((name) => words(name))))];
}

/** "oil ring gap one, fifteen thou". */
function ringFirst(quantity: Quantity, engine: Engine, value: Phrase): readonly (readonly [Phrase, number])[] {
  const number = tagged(chain(maybe(words("number")), countTo(engine.cylinders)), PLACE);
  return ringAndName(quantity, engine).map((begun) => [chain(begun, maybe(words("on")), number, value), 0.7]);
}

const LISTED = tagged(
  chain(
    belowHundred((n) => (n > 0 ? 1 : 0)),
    maybe(words("and a half"), 0.5),
    maybe(words("thou"), 0.3),
  ),
  VALUE,
);

/** "rings on two: twelve, fourteen, twelve": one value a ring, in their order. */
function ringList(quantity: Quantity, engine: Engine): readonly (readonly [Phrase, number])[] {
  if (quantity.listAlong !== "ring" || quantity.scale !== "thou") return [];
  const number = tagged(chain(maybe(words("number")), countTo(engine.cylinders)), PLACE);
  const list = chain(...engine.rings.map(() => LISTED));
  return [
    [
      chain(
        oneOf(
          quantity.spoken
            .filter(isSayable)
            .slice(0, 4)
            .map((name) => words(name)),
        ),
        maybe(words("on")),
        number,
        list,
      ),
      0.2,
    ],
  ];
}

/** Sentences that name the quantity. `whole` when a place is already open, so that none need be said. */
export function namedSentences(quantity: Quantity, spec: Spec, metric: boolean, whole: boolean): Phrase | undefined {
  if (SAID_OWN_WAY.has(quantity.id)) return undefined;
  const name = nameOf(quantity);
  const value = valuePhrase(quantity, spec, metric);
  const place = placePhrases(quantity, spec.engine);
  const of: (readonly [Phrase, number])[] = [];
  if (place !== undefined) of.push(...placedSentences(quantity, name, value, place));
  if (place === undefined || place.optional || whole) {
    of.push([chain(name, maybe(value, 1, BROKEN_OFF)), whole || place === undefined ? 1 : 0.7]);
  }
  const after = trail(quantity, spec, metric);
  if (after !== undefined && place !== undefined) of.push([chain(name, place.after, value, after), 0.5]);
  of.push(...ringFirst(quantity, spec.engine, value), ...ringList(quantity, spec.engine));
  return { kind: "choice", of };
}

/** How usual it is to leave out the name with no quantity open. */
const NAMELESS = 0.03;

/** Beside a bare value: how usual it is to say a place with it, and to say one where the place is open already. */
const PLACED = 0.2;
const PLACED_ANYHOW = 0.03;
/** After a bare value and where the place is open already: a long "one" of "fifty-one" is heard for "on one" otherwise. */
const TRAILED_ANYHOW = 0.001;

/** Sentences that leave the quantity to the context: a bare value, or a place and a value. */
export function impliedSentences(quantity: Quantity, spec: Spec, metric: boolean, whole: boolean): Phrase {
  const value = valuePhrase(quantity, spec, metric, true);
  const place = SAID_OWN_WAY.has(quantity.id) ? undefined : placePhrases(quantity, spec.engine);
  const of: (readonly [Phrase, number])[] = [[value, 1]];
  if (place !== undefined) {
    const placed = whole ? PLACED_ANYHOW : PLACED;
    of.push([chain(place.alone, value), placed]);
    if (trailsPlace(quantity) || leadingKey(quantity) === "small")
      of.push([chain(value, place.trailing), whole ? TRAILED_ANYHOW : PLACED]);
  }
  return { kind: "choice", of };
}

/** Small lengths of `quantities`, their names and the ways their places are said; undefined where none has a place. */
function placedLengths(spec: Spec, quantities: readonly Quantity[]) {
  const lengths = quantities.filter((quantity) => !SAID_OWN_WAY.has(quantity.id) && leadingKey(quantity) === "small");
  const placed = lengths.flatMap((quantity) => {
    const place = placePhrases(quantity, spec.engine);
    return place === undefined ? [] : [{ quantity, place }];
  });
  const [first] = placed;
  const value = first && leadingValue(first.quantity);
  if (value === undefined) return undefined;
  return {
    value,
    name: oneOf(placed.map(({ quantity }) => nameOf(quantity))),
    trailing: oneOf(placed.map(({ place }) => place.trailing)),
    alone: oneOf(placed.map(({ place }) => place.alone)),
  };
}

/**
 * Small lengths before or after their place: "clearance two thou on main two", which all of them share; and, less usual, without a name,
 * which comes to a question: "main two, nineteen tenths", "two and a half thou on main two".
 */
export function valueAndPlaceSentences(spec: Spec, quantities: readonly Quantity[]): Phrase | undefined {
  const lengths = placedLengths(spec, quantities);
  if (lengths === undefined) return undefined;
  const { value, name, trailing, alone } = lengths;
  return weighted([chain(maybe(name, 1, NAMELESS), value, trailing), 1], [chain(alone, tagged(ROUGH, VALUE)), NAMELESS]);
}

/** "sixty-two pounds compression on four", "half a thou out of round, crankpin three": the value before the name. */
export function valueFirstSentences(spec: Spec, quantities: readonly Quantity[], whole: boolean): Phrase | undefined {
  const families = new Map<string, { value: Phrase; rests: Phrase[] }>();
  for (const quantity of quantities) {
    if (SAID_OWN_WAY.has(quantity.id) || quantity.over !== undefined) continue;
    const key = leadingKey(quantity);
    const value = leadingValue(quantity);
    if (key === undefined || value === undefined) continue;
    const place = placePhrases(quantity, spec.engine);
    const name = nameOf(quantity);
    const open = place === undefined || place.optional || whole;
    const rest = place === undefined ? name : chain(name, open ? maybe(place.trailing) : place.trailing);
    const family = families.get(key);
    if (family === undefined) families.set(key, { value, rests: [rest] });
    else family.rests.push(rest);
  }
  if (families.size === 0) return undefined;
  return oneOf([...families.values()].map(({ value, rests }) => chain(value, oneOf(rests))));
}
