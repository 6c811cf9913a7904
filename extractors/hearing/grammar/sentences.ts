// A quantity in, the sentences that report it out: name, place and value in the orders a machinist says them.

import { QUANTITIES } from "../../../shared/quantities/registry.ts";
import type { Quantity, QuantityId } from "../../../shared/quantities/types.ts";
import type { Engine, Spec } from "../../../shared/spec/spec.ts";
import { IMPLIED_BY_SLOT } from "../../speech/vocabulary/implied.ts";
import { isSayable } from "../words/dictionary.ts";
import { anyOf, chain, maybe, oneOf, type Phrase, tagged, weighted, words } from "./automaton.ts";
import { belowHundred } from "./numbers.ts";
import { SAID_OWN_WAY } from "./own-ways.ts";
import { COUNTED, countedSlots, countTo, numbered, PLACE, type PlacePhrases, placePhrases, slotPhrase } from "./places.ts";
import { ROUGH } from "./unsure.ts";
import { leadingKey, leadingValue, VALUE, valuePhrase } from "./values.ts";
import { namesOf } from "./vocabulary.ts";
import { BROKEN_OFF, once, SELDOM } from "./weights.ts";

/** Parts that name what is measured of them, said behind it: "runout on the flywheel", "end clearance of the oil pump". */
const turned = (name: string): readonly string[] => {
  const part = ["oil pump", name.split(" ")[0] ?? ""].find((first) => name.startsWith(`${first} `));
  if (part === undefined) return [];
  return ["on", "of"].map((link) => `${name.slice(part.length + 1)} ${link} the ${part}`);
};

/** Names by which a quantity may be called; the first is the most usual. */
const nameOf = (quantity: Quantity): Phrase =>
  once(`name ${quantity.id}`, () => {
    const isWhole = quantity.needs.length + quantity.may.length === 0 && quantity.needsOneOf === undefined;
    const named = weighted(
      ...namesOf(quantity.spoken).map(([name, usual]) => [words(name), usual] as const),
      ...(isWhole ? quantity.spoken.flatMap(turned) : []).map((name) => [words(name), SELDOM] as const),
    );
    return quantity.scale === "inch_digits" ? chain(named, maybe(words("diameter"), SELDOM)) : named;
  });

/** How usual it is to leave out the name with no quantity open. */
const NAMELESS = 0.03;

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
const VERB = tagged(
  weighted(
    [words("is"), 1],
    [words("was"), 1],
    [words("are"), 0.3],
    [words("at"), 0.3],
    [words("says"), 0.3],
    [words("sits"), 0.1],
  ),
  VALUE,
);
const VERB_SAID = 0.03;

/** A figure, mostly said without a word before it. */
const withVerb = (value: Phrase): Phrase => chain(maybe(VERB, VERB_SAID), value);

function placedSentences(
  quantity: Quantity,
  name: Phrase,
  value: Phrase,
  place: PlacePhrases,
  engine: Engine,
): readonly (readonly [Phrase, number])[] {
  const figure = maybe(withVerb(value), 1, BROKEN_OFF);
  const of: (readonly [Phrase, number])[] = [[chain(name, place.after, figure), 1]];
  if (trailsPlace(quantity)) of.push([chain(name, value, place.trailing), 0.5]);
  if (place.before !== undefined) of.push([chain(place.before, name, figure), 1]);
  const parts = PISTON_FIRST.filter((noun) => countedSlots(quantity).includes(noun.slot)).flatMap(({ text, number }) =>
    quantity.spoken
      .filter((other) => other.startsWith(`${text} `))
      .map((other) => chain(number(engine), words(other.slice(text.length + 1)))),
  );
  if (parts.length > 0) of.push([chain(oneOf(parts), figure), SPLIT]);
  for (const { before, after } of place.split) of.push([chain(before, name, after, figure), SPLIT]);
  // "Crankpin one six tenths out of round".
  const leading = quantity.needsOneOf !== undefined && quantity.scale === "small_word" ? leadingValue(quantity) : undefined;
  if (leading !== undefined && place.before !== undefined) of.push([chain(place.before, leading, name), SPLIT]);
  // What the words of the place alone tell.
  if (IMPLIED_BY_SLOT.depth?.ids.includes(quantity.id) && place.before !== undefined)
    of.push([chain(place.before, figure), NAMELESS]);
  return of;
}

/** Of a name that begins with the part, the part may be said with its number: "piston four clearance". */
const PISTON_FIRST = [
  {
    text: "piston",
    slot: "cylinder",
    number: (engine: Engine) => tagged(chain(words("piston"), countTo(engine.cylinders)), PLACE),
  },
] as const;

/** A place that is said in two parts, the name between them: "second ring gap on number three". */
const SPLIT = 0.3;
/** A reading that needs a place and is said without one is asked about. */
const PLACELESS = 0.05;

/** "oil ring gap": the ring said before the name that holds the word ring. */
function ringAndName(quantity: Quantity, engine: Engine): readonly Phrase[] {
  if (!quantity.needs.includes("ring")) return [];
  const ring = tagged(anyOf(engine.rings), PLACE);
  const names = quantity.spoken.filter((name) => name.startsWith("ring ") && isSayable(name));
  return names.length === 0 ? [] : [chain(ring, anyOf(names))];
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
  return [[chain(nameOf(quantity), maybe(words("on")), number, list), 0.2]];
}

/** Sentences that name the quantity. `whole` when a place is already open, so that none need be said. */
export function namedSentences(quantity: Quantity, spec: Spec, metric: boolean, whole: boolean): Phrase | undefined {
  if (SAID_OWN_WAY.has(quantity.id)) return undefined;
  const name = nameOf(quantity);
  const value = valuePhrase(quantity, spec, metric);
  const place = placePhrases(quantity, spec.engine);
  const of: (readonly [Phrase, number])[] = [];
  if (place !== undefined) of.push(...placedSentences(quantity, name, value, place, spec.engine));
  if (place === undefined || place.optional || whole) {
    of.push([chain(name, maybe(withVerb(value), 1, BROKEN_OFF)), whole || place === undefined ? 1 : 0.7]);
  } else of.push([chain(name, withVerb(value)), PLACELESS]);
  const part = quantity.may.includes("part") ? slotPhrase("part", spec.engine) : undefined;
  if (part !== undefined) of.push([chain(part, name, maybe(withVerb(value), 1, BROKEN_OFF)), SPLIT]);
  const after = trail(quantity, spec, metric);
  if (after !== undefined && place !== undefined) of.push([chain(name, place.after, value, after), 0.5]);
  of.push(...ringFirst(quantity, spec.engine, value), ...ringList(quantity, spec.engine));
  return { kind: "choice", of };
}

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
    alone: oneOf(COUNTED.map((slot) => numbered(slot, spec.engine, true))),
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

/** "Eleven thou of shim". */
const OF = 0.1;

/** "sixty-two pounds compression on four", "half a thou out of round, crankpin three": the value before the name. */
export function valueFirstSentences(spec: Spec, quantities: readonly Quantity[], whole: boolean): Phrase | undefined {
  const families = new Map<string, { value: Phrase; rests: Phrase[] }>();
  for (const quantity of quantities) {
    if (SAID_OWN_WAY.has(quantity.id) || quantity.over !== undefined) continue;
    const key = leadingKey(quantity);
    const value = leadingValue(quantity);
    if (key === undefined || value === undefined) continue;
    const place = placePhrases(quantity, spec.engine);
    const name = chain(maybe(oneOf([words("of"), words("on")]), OF), nameOf(quantity));
    const open = place === undefined || place.optional || whole;
    const rest =
      place === undefined
        ? name
        : weighted(
            [chain(name, maybe(place.closing, 1, open ? 1 : PLACELESS)), 1],
            // The unit alone tells what it is, or what is asked.
            ...(quantity.scale === "plain" ? [[place.trailing, NAMELESS] as const] : []),
          );
    const family = families.get(key);
    if (family === undefined) families.set(key, { value, rests: [rest] });
    else family.rests.push(rest);
  }
  if (families.size === 0) return undefined;
  return oneOf([...families.values()].map(({ value, rests }) => chain(value, oneOf(rests))));
}
