// A touched key taken apart: what kind of thing changed, its name, and its place.
import { NUMBERED_KEYS, PLACE_KEYS, type Place, type PlaceKey } from "../places/places.ts";

/** Kinds of keys the fold hands out. */
export type KeyKind = "reading" | "photo" | "note" | "step" | "part" | "instrument" | "accepted" | "spec" | "handed_over";

export interface TouchedKey {
  readonly kind: KeyKind;
  /** Quantity, proof, kind of note, step, part or instrument. */
  readonly name: string;
  readonly place: Place;
}

const isPlaceKey = (slot: string): slot is PlaceKey => (PLACE_KEYS as readonly string[]).includes(slot);

/** The place that `placeKey` wrote: `cylinder=2;ring=top`. Slots it does not know are left out. */
export function readPlaceKey(text: string): Place {
  const place: Record<string, string | number> = {};
  if (text === "") return {};
  for (const pair of text.split(";")) {
    const at = pair.indexOf("=");
    const slot = pair.slice(0, at);
    const value = pair.slice(at + 1);
    if (isPlaceKey(slot)) place[slot] = NUMBERED_KEYS.has(slot) && /^\d+$/.test(value) ? Number(value) : value;
  }
  return place as Place;
}

/** Take a touched key apart: `reading:ring_end_gap|cylinder=2;ring=top`, `step:bores`, `spec`. */
export function readKey(key: string): TouchedKey {
  const colon = key.indexOf(":");
  if (colon < 0) return { kind: key as KeyKind, name: "", place: {} };
  const bar = key.indexOf("|", colon);
  const kind = key.slice(0, colon) as KeyKind;
  if (bar < 0) return { kind, name: key.slice(colon + 1), place: {} };
  return { kind, name: key.slice(colon + 1, bar), place: readPlaceKey(key.slice(bar + 1)) };
}
