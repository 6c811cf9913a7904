// Where on the engine something was measured: a small record of slots, its schema, its stable key and its spoken form.
import { z } from "zod";
import { type PlaceKey, type Sheet, SLOTS, type SlotValue, slotRow } from "./slots.ts";

export { ANGLES, AXES, DEPTHS, ENDS, FASTENERS, type PlaceKey, RINGS, SIDES, VALVES } from "./slots.ts";

/** Slot order for keys, labels and speech. */
export const PLACE_KEYS = Object.keys(SLOTS) as [PlaceKey, ...PlaceKey[]];

/** Slots that work goes along, one after another. */
export const MOVING_KEYS = PLACE_KEYS.filter((slot) => slotRow(slot).moves === true);

/** Slots that a new cylinder or bearing does not keep from the one before. */
export const CLEARED_KEYS: ReadonlySet<PlaceKey> = new Set(PLACE_KEYS.filter((slot) => slotRow(slot).cleared === true));

/** Slots whose values may be numbers. */
export const NUMBERED_KEYS: ReadonlySet<PlaceKey> = new Set(
  PLACE_KEYS.filter((slot) => slotRow(slot).schema.safeParse(1).success),
);

type Shape = { readonly [slot in PlaceKey]: z.ZodOptional<(typeof SLOTS)[slot]["schema"]> };

/** A place; every slot is optional, and which of them a reading needs is the quantity's to say. */
export const placeSchema = z.strictObject(
  Object.fromEntries(PLACE_KEYS.map((slot) => [slot, SLOTS[slot].schema.optional()])) as unknown as Shape,
);
export type Place = z.infer<typeof placeSchema>;

/** Values of a slot that this engine has, in the order a list of them is read; none where no list runs along it. */
export const valuesOf = (slot: PlaceKey, sheet: Sheet, place: Place): readonly SlotValue[] =>
  slotRow(slot).values?.(sheet, place) ?? [];

/** A stable text key, equal for equal places whatever the order of their slots: `cylinder=2;ring=top`. */
export function placeKey(place: Place): string {
  let key = "";
  for (const slot of PLACE_KEYS) {
    const value = place[slot];
    if (value !== undefined) key += `${key ? ";" : ""}${slot}=${value}`;
  }
  return key;
}

/** Whether every slot of `pattern` stands in `place` with the same value. */
export function placeMatches(pattern: Place, place: Place): boolean {
  return PLACE_KEYS.every((slot) => pattern[slot] === undefined || pattern[slot] === place[slot]);
}

/** Slots of a place that are told, with their values: a rod nut says "rod" with its number, so its fastener would be said twice. */
export const toldSlots = (place: Place): readonly (readonly [PlaceKey, SlotValue])[] =>
  PLACE_KEYS.flatMap((slot) => {
    const value = place[slot];
    const twice = slot === "fastener" && (value === "rod" || value === "main") && place[value] !== undefined;
    return value === undefined || twice ? [] : [[slot, value] as const];
  });

/** A place as a person reads it: `cylinder 2, top ring`. Empty for the engine as a whole. */
export const placeLabel = (place: Place): string =>
  toldSlots(place)
    .map(([slot, value]) => {
      const text = String(value).replaceAll("_", " ");
      return slotRow(slot).label?.(text) ?? text;
    })
    .join(", ");
