// Place words with no value beside them: a place to go to, or to move the last reading to.
import { PLACE_KEYS, type Place } from "../../../shared/places/places.ts";
import { QUANTITIES } from "../../../shared/quantities/registry.ts";
import type { Quantity } from "../../../shared/quantities/types.ts";
import { selfCorrected } from "../measure/corrected.ts";
import type { Element } from "../measure/elements.ts";
import type { Env } from "../measure/env.ts";
import { type Settled, settle } from "../measure/place.ts";
import { sentences } from "../measure/sentences.ts";
import type { Noun, Sense, Token } from "../types.ts";

/** A quantity that takes every slot, so that a place can be read before it is known of what. */
const ANYTHING: Quantity = {
  ...QUANTITIES.crank_end_float,
  may: [...PLACE_KEYS].filter((key) => key !== "part"),
};

export interface PlaceRead {
  readonly place: Place;
  /** The number said had no noun: "three" alone. */
  readonly bareNumber: boolean;
  readonly settled: Settled;
}

/** The place said in tokens[from, to) when no value is; undefined when there is none. `like` gives the slots it may fill. */
export function readPlace(tokens: readonly Token[], from: number, to: number, env: Env, like?: Quantity): PlaceRead | undefined {
  let best: readonly Element[] | undefined;
  for (const reading of sentences(tokens, from, to)) {
    const elements = selfCorrected(reading.elements, tokens);
    if (elements.some((e) => e.t === "value")) continue;
    best = elements;
    break;
  }
  if (best === undefined) return undefined;
  const numbers = best.flatMap((e) => (e.t === "place" ? [{ noun: e.noun, n: e.n, at: e.from }] : []));
  const senses = best.flatMap((e) => (e.t === "word" ? [(tokens[e.from] as Token).sense] : []));
  const settled = settle({ numbers, senses }, like ?? ANYTHING, {}, like === undefined ? {} : env.place, false, env.spec);
  const place: Place = {};
  for (const slot of settled.spoken) (place as Record<string, unknown>)[slot] = settled.place[slot];
  withFastener(place);
  const keys = Object.keys(place);
  if (keys.length === 0) return undefined;
  if (like === undefined && !isPlaceOfItsOwn(place, keys, senses, numbers)) return undefined;
  const bareNumber = numbers.length > 0 && numbers.every((n) => n.noun === undefined) && Object.keys(place).length === 1;
  return { place, bareNumber, settled };
}

/** A bare number counts no nuts, and "the head" alone is a part, not a place to be at. */
function isPlaceOfItsOwn(
  place: Place,
  keys: readonly string[],
  senses: readonly Sense[],
  numbers: readonly { readonly noun: Noun | undefined }[],
): boolean {
  const nut = numbers.some((number) => number.noun === "nut") || senses.some((sense) => sense.noun === "nut");
  if (typeof place.nut === "number" && !nut) return false;
  return !(keys.length === 1 && place.fastener !== undefined && !nut && numbers.length === 0);
}

/** A nut on a rod or a main names its fastener. */
function withFastener(place: Place): void {
  if (place.nut === undefined || place.fastener !== undefined) return;
  if (place.rod !== undefined) place.fastener = "rod";
  else if (place.main !== undefined) place.fastener = "main";
}
