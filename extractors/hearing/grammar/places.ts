// A quantity and an engine in, the ways its place may be said out: only numbers and slots the engine has.
import type { PlaceKey } from "../../../shared/places/places.ts";
import type { Quantity } from "../../../shared/quantities/types.ts";
import type { Engine } from "../../../shared/spec/spec.ts";
import { IMPLIED_BY_SLOT } from "../../speech/vocabulary/implied.ts";
import { NOUN_WORDS, SLOT_WORDS } from "../../speech/vocabulary/places.ts";
import { anyOf, chain, EMPTY, maybe, oneOf, type Phrase, tagged, weighted, words } from "./automaton.ts";
import { spokenBelowHundred } from "./numbers.ts";
import { isPlainly, nounsOf, OTHERWISE, ordinals, slotWords } from "./vocabulary.ts";
import { once } from "./weights.ts";

export const PLACE = "~p";

/** A number that this engine has no such part for; heard, so that it is refused and not taken for one that it has. */
const NO_SUCH = 0.02;
const DIGITS_SAID = 9;

/** "one" to the engine's count; others up to nine are seldom. */
export const countTo = (count: number): Phrase =>
  once(`count ${count}`, () =>
    weighted(
      ...Array.from({ length: Math.max(count, DIGITS_SAID) }, (_, index) => {
        const n = index + 1;
        return [words(spokenBelowHundred(n)), n <= count ? 1 : NO_SUCH] as const;
      }),
    ),
  );

type Counted = "cylinder" | "main" | "rod";

const count = (slot: Counted, engine: Engine) => (slot === "main" ? engine.mains : engine.cylinders);

/** What is measured itself, and weighed: its number is said with its name. */
const IS_MEASURED: ReadonlySet<string> = new Set([...NOUN_WORDS.piston, ...NOUN_WORDS.pin]);

/** A crankpin has no weight of its own to be said: "crankpin four weight" would only be heard for "crankpin four, one eight". */
const isWeighed = (noun: string) => !NOUN_WORDS.crankpin.includes(noun) && !NOUN_WORDS.pin.includes(noun);

/** The nouns of measured places: none of several ("mains two" opens a place only), and no longer way to say a noun that ends it ("con rod"). */
function nounPhrase(slot: Counted, weighed: boolean): Phrase {
  const all = nounsOf(slot);
  const single = new Set(all.map(([noun]) => noun).filter((noun) => !noun.includes(" ")));
  const isPlain = (noun: string) => !noun.endsWith("s") && (single.has(noun) || !single.has(noun.split(" ").at(-1) ?? ""));
  const nouns = all.filter(
    ([noun, usual]) => usual >= OTHERWISE && isPlain(noun) && (weighed ? isWeighed(noun) : !IS_MEASURED.has(noun)),
  );
  return weighted(...nouns.map(([text, weight]) => [words(text), weight] as const));
}

/** "two", "number two", "cylinder two", "front main"; with `named`, the noun must be said. `of` is what is measured there, where that is known. */
export function numbered(slot: Counted, engine: Engine, named = false, of?: Quantity): Phrase {
  const weighed = of?.unit === "g";
  return once(`numbered ${slot} ${count(slot, engine)} ${named} ${weighed}`, () => {
    const noun = nounPhrase(slot, weighed);
    const number = countTo(count(slot, engine));
    const either: (readonly [Phrase, number])[] = [[chain(named ? noun : maybe(noun), number), 1]];
    if (slot === "main") {
      const mains = weighted(...NOUN_WORDS.main.filter((text) => !/s\b/.test(text)).map((text) => [words(text), 1] as const));
      either.push([chain(anyOf(ordinals(engine.mains)), mains), OTHERWISE]);
    }
    return tagged(weighted(...either), PLACE);
  });
}

/** A number with any noun that the parser has for it, as where a place is said alone. */
export const anyNoun = (slot: Counted, engine: Engine): Phrase =>
  tagged(
    chain(weighted(...nounsOf(slot).map(([noun, usual]) => [words(noun), usual] as const)), countTo(count(slot, engine))),
    PLACE,
  );

/** The words of one slot but for those in `taken`, or undefined for slots that are said otherwise. */
export function slotPhrase(
  slot: PlaceKey,
  engine: Engine,
  taken: ReadonlySet<string> = NONE,
  plainly = false,
): Phrase | undefined {
  const of = [...slotWords(slot, engine)].filter(
    ([phrase, value]) =>
      !taken.has(phrase) &&
      (!plainly || isPlainly(phrase, value)) &&
      (slot !== "nut" || SLOT_WORDS[phrase]?.slots?.[0]?.[0] === slot),
  );
  if (of.length === 0) return undefined;
  const said = weighted(...of.map(([phrase, value]) => [words(phrase), isPlainly(phrase, value) ? 1 : OTHERWISE] as const));
  return tagged(slot === "ring" ? chain(said, maybe(words("ring"), OTHERWISE)) : said, PLACE);
}

const NONE: ReadonlySet<string> = new Set();

/** Slots that a number with a noun counts. */
export const COUNTED: readonly Counted[] = ["cylinder", "main", "rod"];

export const countedSlots = (quantity: Quantity): readonly Counted[] =>
  COUNTED.filter((slot) => quantity.needs.includes(slot) || quantity.needsOneOf?.includes(slot) || quantity.may.includes(slot));

export interface PlacePhrases {
  /** After the quantity's name: "number two top", "on number two", "top of number two". */
  readonly after: Phrase;
  /** With the quantity open, before the value; of several slots any, for the rest is open. No "for": it would be heard for "four" and "bore". */
  readonly alone: Phrase;
  /** At the end of the sentence: "on main two", "number two exhaust". */
  readonly trailing: Phrase;
  /** At the end of the sentence, right after the name. */
  readonly closing: Phrase;
  /** Before the name, with a noun: "exhaust two" (lash), "number three" (bore), "middle of" (bore three). */
  readonly before: Phrase | undefined;
  /** The number alone, said after a name that the slots were said before; and the slots after a name the number was said before. */
  readonly split: readonly { readonly before: Phrase; readonly after: Phrase }[];
  /** Whether a sentence without a place is whole. */
  readonly optional: boolean;
}

/** A slot that may be left away mostly is: heard where nothing was said, it would move the reading to another place. */
const SELDOM_SLOT = 0.06;
/** What a reading needs is seldom left away; then it is asked for. */
const FORGOTTEN = 0.05;
/** With a place open whoever moves on says what changes: "number two, twelve", the ring being the same. */
const OPEN_ALREADY = 0.5;
/** "Ring gap for one" is "ring gap four, one" far more often. */
const FOR = 0.05;

const prep = (text: string) => tagged(words(text), "");
const PREPS = weighted([EMPTY, 1], [prep("on"), 0.5], [prep("in"), OTHERWISE], [prep("of"), FOR], [prep("for"), FOR]);
const BETWEEN = weighted([EMPTY, 1], [prep("on"), 0.5], [prep("of"), OTHERWISE]);

/** Slots of `keys` in any order, each of them optional unless in `must`. Beside a ring its name is no depth: nobody says "oil, top". */
function anyOrder(
  keys: readonly PlaceKey[],
  engine: Engine,
  must: ReadonlySet<PlaceKey>,
  own: boolean,
  without = FORGOTTEN,
): Phrase {
  const taken = keys.includes("ring") ? new Set(slotWords("ring", engine).keys()) : NONE;
  const parts = keys.flatMap((key) => {
    const said = slotPhrase(key, engine, key === "ring" ? NONE : taken, !own && !must.has(key));
    return said === undefined ? [] : [must.has(key) ? maybe(said, 1, without) : maybe(said, SELDOM_SLOT)];
  });
  return parts.length < 2 ? chain(...parts) : weighted([chain(...parts), 1], [chain(...parts.toReversed()), OTHERWISE]);
}

/** The slots of `quantity` that are said by words of their own; a part's are said in sentences of their own. */
const wordSlots = (quantity: Quantity, engine: Engine) =>
  [...quantity.needs, ...quantity.may].filter(
    (key) => !COUNTED.includes(key as Counted) && key !== "part" && slotPhrase(key, engine) !== undefined,
  );

/** How the place of `quantity` is said, or undefined when it has none. */
export const placePhrases = (quantity: Quantity, engine: Engine): PlacePhrases | undefined => {
  const kept = made.get(engine)?.get(quantity.id);
  if (kept !== undefined) return kept;
  const place = placeOf(quantity, engine);
  if (place !== undefined) made.set(engine, (made.get(engine) ?? new Map()).set(quantity.id, place));
  return place;
};
const made = new WeakMap<Engine, Map<string, PlacePhrases>>();

function placeOf(quantity: Quantity, engine: Engine): PlacePhrases | undefined {
  const counted = countedSlots(quantity);
  const slots = wordSlots(quantity, engine);
  if (counted.length === 0 && slots.length === 0) return undefined;
  const must = new Set(quantity.needs);
  const several = counted.length > 1;
  const numbers = (named: boolean) =>
    counted.length === 0 ? EMPTY : oneOf(counted.map((slot) => numbered(slot, engine, named, quantity)));
  const number = numbers(several);
  const named = numbers(true);
  // Every way to say a slot is for what is known by it; elsewhere it is said plainly.
  const own = slots.some((slot) => IMPLIED_BY_SLOT[slot]?.ids.includes(quantity.id) ?? true);
  const rest = anyOrder(slots, engine, must, own);
  const open = anyOrder(slots, engine, must, own, OPEN_ALREADY);
  const needed = slots.filter((slot) => must.has(slot));
  const first = anyOrder(needed.length > 0 ? needed : slots, engine, new Set(needed), own);
  const last = anyOrder(needed, engine, must, own);
  const optional = quantity.needs.length === 0 && quantity.needsOneOf === undefined;
  const either = (n: Phrase): Phrase =>
    slots.length === 0 ? n : weighted([chain(n, rest), 1], [chain(first, BETWEEN, n), valve(must)]);
  const bare = several || counted[0] !== "cylinder" ? named : number;
  const closing = (n: Phrase): Phrase => (must.has("valve") ? oneOf([chain(n, last), chain(last, n)]) : chain(n, last));
  const nouns = tagged(oneOf(counted.map((slot) => nounPhrase(slot, quantity.unit === "g"))), PLACE);
  return {
    after: chain(PREPS, either(number)),
    alone: chain(maybe(prep("on"), SELDOM_SLOT), slots.length === 0 ? number : oneOf([chain(number, open), first])),
    trailing: weighted([chain(PREPS_SAID, closing(number)), 1], [closing(named), 1]),
    closing: chain(PREPS, must.has("valve") ? closing(number) : chain(number, rest)),
    before: counted.length === 0 ? undefined : either(bare),
    split:
      counted.length === 0
        ? []
        : [
            ...(needed.length > 0 ? [] : [{ before: nouns, after: numbers(false) }]),
            ...(slots.length === 0
              ? []
              : [
                  { before: chain(first, BETWEEN), after: chain(PREPS, number) },
                  { before: bare, after: rest },
                ]),
          ],
    optional,
  };
}

const PREPS_SAID = weighted([prep("on"), 0.5], [prep("in"), OTHERWISE], [prep("of"), FOR]);

/** "Exhaust two" is as usual as "two exhaust"; "top two" is not. */
const valve = (must: ReadonlySet<PlaceKey>) => (must.has("valve") ? 1 : OTHERWISE);
