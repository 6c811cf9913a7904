// Place words and numbers settled for one quantity: in go the words said and the context, out comes a place.
import { NUMBERED_KEYS, type Place, type PlaceKey, valuesOf } from "../../../shared/places/places.ts";
import type { Quantity } from "../../../shared/quantities/types.ts";
import type { Spec } from "../../../shared/spec/spec.ts";
import type { Noun, Sense } from "../types.ts";
import { hasOther, inherit, takes } from "./inherit.ts";

/** A number said as a place. */
export interface PlaceNumber {
  readonly noun: Noun | undefined;
  readonly n: number;
  readonly at: number;
}

export interface PlaceWords {
  readonly numbers: readonly PlaceNumber[];
  readonly senses: readonly Sense[];
  /** Slots that a place in a list gives. */
  readonly given?: Place | undefined;
}

export interface Settled {
  readonly place: Place;
  readonly spoken: ReadonlySet<PlaceKey>;
  readonly implied: readonly PlaceKey[];
  readonly missing: readonly PlaceKey[];
  readonly absent: readonly PlaceKey[];
  /** Words that found no slot. */
  readonly stray: number;
  /** Numbers that found no slot: figures the reading would leave out. */
  readonly lost: number;
}

/** Slots a number may fill, by the noun before it, first that the quantity has. */
export const BY_NOUN: Readonly<Record<Noun, readonly PlaceKey[]>> = {
  cylinder: ["cylinder", "rod"],
  number: ["cylinder", "rod", "main", "nut"],
  main: ["main"],
  rod: ["rod", "cylinder"],
  crankpin: ["rod"],
  pin: ["cylinder", "rod"],
  journal: ["main", "rod"],
  piston: ["cylinder", "rod"],
  nut: ["nut"],
  stage: ["stage"],
  ring: ["ring", "cylinder"],
  head: ["head"],
};
/** Highest bare number that may still be a place said wrongly. */
const MOST_BARE = 8;
/** A number with no noun. */
const BARE: readonly PlaceKey[] = ["cylinder", "rod", "main", "nut"];
/** How many of a slot this engine has; undefined where its values are not counted. */
export function countOf(spec: Spec, slot: PlaceKey, place: Place): number | undefined {
  if (!NUMBERED_KEYS.has(slot) || (slot === "nut" && (place.fastener ?? "flywheel") === "flywheel")) return undefined;
  return valuesOf(slot, spec, place).length || undefined;
}

/** Which bearing a bare number counts when a quantity takes mains and rods: as in the context, else unknown. */
function bearingSlot(quantity: Quantity, known: Place, context: Place): PlaceKey | undefined {
  if (quantity.needsOneOf === undefined) return undefined;
  for (const slot of quantity.needsOneOf) {
    if (known[slot] !== undefined || context[slot] !== undefined) return slot;
  }
  return undefined;
}

function slotFor(quantity: Quantity, number: PlaceNumber, place: Place, context: Place, engine: Spec): PlaceKey | undefined {
  const slots = number.noun === undefined ? BARE : BY_NOUN[number.noun];
  const bolted = place.fastener === "rod" || place.fastener === "main" ? place.fastener : undefined;
  // "rod nuts four" are rod four's; "rod nut two" is nut two only when the rod is known.
  if (number.noun === "nut" && bolted !== undefined && place[bolted] === undefined && context[bolted] === undefined)
    return bolted;
  if (number.noun === "journal" && quantity.id === "crankpin_diameter") return "rod";
  if (number.noun === undefined || number.noun === "number") {
    const bearing = bearingSlot(quantity, place, context);
    if (bearing !== undefined && place[bearing] === undefined) return bearing;
    // Two mains and four rods: a bare four can only be a rod.
    if (quantity.needsOneOf !== undefined && bearing === undefined) {
      return quantity.needsOneOf.includes("main") && number.n > engine.engine.mains ? "rod" : undefined;
    }
    if (place.fastener !== undefined && takes(quantity, "nut") && place.nut === undefined) {
      return bolted === undefined || place[bolted] !== undefined ? "nut" : bolted;
    }
    if (bolted !== undefined && place[bolted] === undefined) return bolted;
  }
  return slots.find(
    (slot) =>
      takes(quantity, slot) &&
      place[slot] === undefined &&
      mayCount(number, slot, place, engine) &&
      !hasOther(quantity, slot, place),
  );
}

/** Whether a number can count a slot at all, beside what the place already says. */
function mayCount(number: PlaceNumber, slot: PlaceKey, place: Place, spec: Spec): boolean {
  // Nobody counts twelve cylinders on a bench engine by the bare number: that is a figure.
  if (number.noun === undefined && number.n > MOST_BARE && number.n > spec.engine.cylinders && slot !== "nut") return false;
  if (slot !== "rod" && slot !== "main") return true;
  // A head stud is on no rod and no main, a main's nut on no rod.
  return place.fastener === undefined || place.fastener === slot;
}

/** A place being settled. */
interface Draft {
  readonly place: Place;
  readonly spoken: Set<PlaceKey>;
  stray: number;
  lost: number;
}

function put(draft: Draft, slot: PlaceKey, value: string | number): void {
  (draft.place as Record<string, string | number>)[slot] = value;
  draft.spoken.add(slot);
}

/** Words that are a place by themselves. */
function settleWords(draft: Draft, words: PlaceWords, quantity: Quantity): void {
  const { place } = draft;
  for (const sense of words.senses) {
    const option = sense.slots?.find(([slot]) => takes(quantity, slot) && place[slot] === undefined);
    const part = sense.part !== undefined && takes(quantity, "part") && place.part === undefined && !isCounted(sense, words);
    if (option !== undefined) put(draft, option[0], option[1]);
    else if (part && sense.part !== undefined) put(draft, "part", sense.part);
    else if (
      sense.slots !== undefined &&
      sense.kind !== "prep" &&
      sense.feat !== "oil" &&
      sense.part === undefined &&
      sense.ordinal === undefined &&
      sense.count === undefined
    )
      draft.stray++;
  }
  if (takes(quantity, "fastener") && place.fastener === undefined) {
    const noun = words.numbers.find((n) => n.noun === "rod" || n.noun === "main")?.noun ?? fastenerNoun(words);
    if (noun === "rod" || noun === "main") put(draft, "fastener", noun);
  }
}

/** Numbers said as places, and bearings named by where they stand. */
function settleNumbers(draft: Draft, words: PlaceWords, quantity: Quantity, known: Place, spec: Spec): void {
  const { place } = draft;
  for (const number of words.numbers) {
    const slot = slotFor(quantity, number, place, known, spec);
    if (slot === undefined) {
      // A bare number that may count mains or rods is asked about; any other that finds no slot was said for something else.
      const open =
        (number.noun === undefined || number.noun === "number") &&
        quantity.needsOneOf?.some((key) => place[key] !== undefined) === false;
      if (!open) draft.lost++;
    } else if (slot === "ring") put(draft, "ring", spec.engine.rings[number.n - 1] ?? "oil");
    else put(draft, slot, number.n);
  }
  const [slot, n] = countedByName(words, spec) ?? [];
  if (slot === undefined || n === undefined || !takes(quantity, slot)) return;
  if (place[slot] !== undefined || hasOther(quantity, slot, place)) return;
  put(draft, slot, n);
  // "front main" is the first main, not its front end.
  for (const key of ["end", "depth"] as const) {
    delete place[key];
    draft.spoken.delete(key);
  }
}

/** Settle the words for a quantity; `earlier` holds slots said earlier in the sentence, `context` those before it. */
export function settle(
  words: PlaceWords,
  quantity: Quantity,
  earlier: Place,
  context: Place,
  sameQuantity: boolean,
  spec: Spec,
): Settled {
  const draft: Draft = { place: {}, spoken: new Set(), stray: 0, lost: 0 };
  const { place, spoken } = draft;
  settleWords(draft, words, quantity);
  settleNumbers(draft, words, quantity, { ...context, ...earlier }, spec);
  const implied: PlaceKey[] = [];
  for (const slot in words.given) {
    (place as Record<string, unknown>)[slot] = words.given[slot as PlaceKey];
    implied.push(slot as PlaceKey);
  }
  implied.push(...inherit(place, spoken, quantity, earlier, context, sameQuantity));
  const missing = quantity.needs.filter((slot) => place[slot] === undefined);
  if (quantity.needsOneOf !== undefined && !quantity.needsOneOf.some((slot) => place[slot] !== undefined)) {
    missing.push(quantity.needsOneOf[0] as PlaceKey);
  }
  return { place, spoken, implied, missing, absent: absentIn(place, spec), stray: draft.stray, lost: draft.lost };
}

const COUNTABLE: readonly PlaceKey[] = ["cylinder", "main", "rod", "ring", "nut", "head", "bank"];

/** Slots of a place whose value this engine does not have. */
function absentIn(place: Place, spec: Spec): PlaceKey[] {
  return COUNTABLE.filter((slot) => {
    const value = place[slot];
    if (slot === "ring" || slot === "bank") return value !== undefined && !valuesOf(slot, spec, place).includes(value ?? "");
    const count = typeof value === "number" ? countOf(spec, slot, place) : undefined;
    return count !== undefined && (value as number) > count;
  });
}

/** "rod two" places the rod; only a noun that no number counts is a part. */
const isCounted = (sense: Sense, words: PlaceWords): boolean =>
  sense.noun !== undefined &&
  sense.part !== "big_end" &&
  sense.part !== "head" &&
  words.numbers.some((number) => number.noun === sense.noun);

/** "front main", "centre main", "second rod": a bearing named by where it stands or by its turn. */
function countedByName(words: PlaceWords, spec: Spec): ["main" | "rod", number] | undefined {
  const { senses } = words;
  for (let i = 0; i + 1 < senses.length; i++) {
    const noun = senses[i + 1]?.noun;
    const slot = noun === "main" || noun === "journal" ? "main" : noun === "rod" || noun === "crankpin" ? "rod" : undefined;
    const { ordinal, count } = senses[i] as Sense;
    if (slot === undefined) continue;
    if (count !== undefined) return [slot, count];
    const last = slot === "main" ? spec.engine.mains : spec.engine.cylinders;
    if (ordinal === "first") return [slot, 1];
    if (ordinal === "last") return [slot, last];
    if (ordinal === "middle" && last % 2 === 1) return [slot, (last + 1) / 2];
  }
  return undefined;
}

function fastenerNoun(words: PlaceWords): Noun | undefined {
  return words.senses.find((sense) => sense.noun === "rod" || sense.noun === "main")?.noun;
}
