// A quantity and an engine in, the ways its place may be said out: only numbers and slots the engine has.
import type { PlaceKey } from "../../../shared/places/places.ts";
import type { Quantity } from "../../../shared/quantities/types.ts";
import type { Engine } from "../../../shared/spec/spec.ts";
import { chain, EMPTY, maybe, oneOf, type Phrase, tagged, weighted, words } from "./automaton.ts";
import { spokenBelowHundred } from "./numbers.ts";

export const PLACE = "~p";

/** "one" to the engine's count. */
export function countTo(count: number): Phrase {
  return oneOf(Array.from({ length: count }, (_, index) => words(spokenBelowHundred(index + 1))));
}

type Counted = "cylinder" | "main" | "rod";

const NOUNS: Readonly<Record<Counted, readonly string[]>> = {
  cylinder: ["number", "cylinder", "cylinder number"],
  main: ["main", "number", "journal"],
  rod: ["rod", "number", "crankpin"],
};

const count = (slot: Counted, engine: Engine) => (slot === "main" ? engine.mains : engine.cylinders);

/** A crankpin has no weight of its own to be said: "crankpin four weight" would only be heard for "crankpin four, one eight". */
const NEVER_WEIGHED = "crankpin";

/** "two", "number two", "cylinder two"; with `named`, the noun must be said. `of` is what is measured there, where that is known. */
export function numbered(slot: Counted, engine: Engine, named = false, of?: Quantity): Phrase {
  const nouns = oneOf(NOUNS[slot].filter((noun) => of?.unit !== "g" || noun !== NEVER_WEIGHED).map((noun) => words(noun)));
  return tagged(chain(named ? nouns : maybe(nouns), countTo(count(slot, engine))), PLACE);
}

const SLOT_WORDS: Readonly<Partial<Record<PlaceKey, readonly string[]>>> = {
  depth: ["top", "middle", "mid", "bottom"],
  axis: ["thrust", "axial"],
  valve: ["intake", "exhaust", "inlet"],
  side: ["a side", "b side", "side a", "side b"],
  end: ["front", "rear"],
  angle: ["vertical", "horizontal"],
  nut: ["nut a", "nut b"],
};

/** The words of one slot but for those in `taken`, or undefined for slots that are said otherwise. */
export function slotPhrase(slot: PlaceKey, engine: Engine, taken: readonly string[] = []): Phrase | undefined {
  if (slot === "ring") return tagged(oneOf(engine.rings.map((ring) => words(ring))), PLACE);
  const said = SLOT_WORDS[slot]?.filter((word) => !taken.includes(word));
  return said === undefined ? undefined : tagged(oneOf(said.map((word) => words(word))), PLACE);
}

const COUNTED: readonly Counted[] = ["cylinder", "main", "rod"];

export const countedSlots = (quantity: Quantity): readonly Counted[] =>
  COUNTED.filter((slot) => quantity.needs.includes(slot) || quantity.needsOneOf?.includes(slot) || quantity.may.includes(slot));

export interface PlacePhrases {
  /** After the quantity's name: "number two top", "on number two". */
  readonly after: Phrase;
  /** With the quantity open, before the value. No "for": it would be heard for "four" and "bore". */
  readonly alone: Phrase;
  /** At the end of the sentence: "on main two", "number two". */
  readonly trailing: Phrase;
  /** Before the name: "exhaust two" (lash), "oil" (ring gap one), "rod three" (side). */
  readonly before: Phrase | undefined;
  /** Whether a sentence without a place is whole. */
  readonly optional: boolean;
}

/** A slot that may be left away mostly is: heard where nothing was said, it would move the reading to another place. */
const SELDOM_SLOT = 0.06;
/** "Ring gap for one" is "ring gap four, one" far more often. */
const FOR = 0.05;

/** Slots of `keys` in order, each of them optional unless `must`. Beside a ring its name is no depth: nobody says "oil, top". */
function inOrder(keys: readonly PlaceKey[], engine: Engine, must: ReadonlySet<PlaceKey>): Phrase {
  const parts: Phrase[] = [];
  const taken = keys.includes("ring") ? engine.rings : [];
  for (const key of keys) {
    const said = slotPhrase(key, engine, taken);
    if (said !== undefined) parts.push(must.has(key) ? said : maybe(said, SELDOM_SLOT));
  }
  return chain(...parts);
}

/** How the place of `quantity` is said, or undefined when it has none. */
export function placePhrases(quantity: Quantity, engine: Engine): PlacePhrases | undefined {
  const counted = countedSlots(quantity);
  const slots = [...quantity.needs, ...quantity.may].filter((key) => !COUNTED.includes(key as Counted));
  const must = new Set(quantity.needs);
  const several = counted.length > 1;
  const number = counted.length === 0 ? EMPTY : oneOf(counted.map((slot) => numbered(slot, engine, several, quantity)));
  const named = counted.length === 0 ? EMPTY : oneOf(counted.map((slot) => numbered(slot, engine, true, quantity)));
  const rest = inOrder(slots, engine, must);
  const needed = inOrder(
    slots.filter((slot) => must.has(slot)),
    engine,
    must,
  );
  if (counted.length === 0 && slots.every((slot) => slotPhrase(slot, engine) === undefined)) return undefined;
  const valve = must.has("valve") ? slotPhrase("valve", engine) : undefined;
  const bare = counted.length === 0 ? EMPTY : oneOf(counted.map((slot) => tagged(countTo(count(slot, engine)), PLACE)));
  const optional = quantity.needs.length === 0 && quantity.needsOneOf === undefined;
  if (valve !== undefined)
    return {
      after: oneOf([chain(valve, number), chain(number, valve)]),
      alone: oneOf([chain(valve, number), chain(number, valve)]),
      trailing: chain(valve, number),
      before: chain(valve, number),
      optional,
    };
  const prep = weighted([EMPTY, 1], [tagged(words("on"), ""), 0.5], [tagged(words("for"), ""), FOR]);
  return {
    after: chain(prep, number, rest),
    alone: chain(maybe(words("on"), SELDOM_SLOT), number, rest),
    trailing: chain(weighted([chain(tagged(words("on"), ""), number), 1], [named, 1]), needed),
    before:
      counted.length === 0
        ? undefined
        : chain(several || counted[0] !== "cylinder" ? named : chain(maybe(tagged(words("cylinder"), PLACE)), bare), needed),
    optional,
  };
}
