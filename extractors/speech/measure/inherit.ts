// Slots that were not said: kept from earlier in the sentence, or from the context.
import { PLACE_KEYS, type Place, type PlaceKey } from "../../../shared/places/places.ts";
import type { Quantity } from "../../../shared/quantities/types.ts";

const COUNTED = new Set<PlaceKey>(["cylinder", "main", "rod"]);

/** Whether a quantity can be placed by a slot. */
export function takes(quantity: Quantity, slot: PlaceKey): boolean {
  return quantity.needs.includes(slot) || quantity.needsOneOf?.includes(slot) === true || quantity.may.includes(slot);
}

/** Slots that a new cylinder or bearing does not keep from the one before. */
const FLEETING = new Set<PlaceKey>(["nut", "side", "end", "stage", "angle"]);

/** Fill the slots of `place` that were not said; returns which. */
export function inherit(
  place: Place,
  spoken: ReadonlySet<PlaceKey>,
  quantity: Quantity,
  earlier: Place,
  context: Place,
  sameQuantity: boolean,
): PlaceKey[] {
  const implied: PlaceKey[] = [];
  const moved = [...spoken].some((slot) => COUNTED.has(slot));
  const oneOfSaid = quantity.needsOneOf?.some((slot) => place[slot] !== undefined) === true;
  const take = (slot: PlaceKey, from: Place, whole: boolean) => {
    if (place[slot] !== undefined || !takes(quantity, slot)) return;
    const value = from[slot] ?? (quantity.needs.includes(slot) ? twin(slot, from) : undefined);
    if (value === undefined) return;
    if ((quantity.needsOneOf?.includes(slot) || isOtherBearing(slot, place)) && (oneOfSaid || hasOther(quantity, slot, place)))
      return;
    if (moved && FLEETING.has(slot)) return;
    if (!whole && !quantity.needs.includes(slot) && !quantity.needsOneOf?.includes(slot)) return;
    (place as Record<string, string | number>)[slot] = value;
    implied.push(slot);
  };
  for (const slot of PLACE_KEYS) take(slot, earlier, true);
  for (const slot of PLACE_KEYS) take(slot, context, sameQuantity);
  return implied;
}

/** A rod's number is its cylinder's. */
function twin(slot: PlaceKey, from: Place): number | undefined {
  if (slot === "rod") return from.cylinder;
  return slot === "cylinder" ? from.rod : undefined;
}

const isOtherBearing = (slot: PlaceKey, place: Place): boolean =>
  (slot === "main" && place.rod !== undefined) || (slot === "rod" && place.main !== undefined);

/** Whether another slot that excludes this one is taken: a main and a rod, a piston and a rod. */
export function hasOther(quantity: Quantity, slot: PlaceKey, place: Place): boolean {
  if (isOtherBearing(slot, place)) return true;
  return quantity.needsOneOf?.some((other) => other !== slot && place[other] !== undefined) === true;
}
