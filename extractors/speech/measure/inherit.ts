// Slots that were not said: kept from earlier in the sentence, or from the context.
import { CLEARED_KEYS, MOVING_KEYS, PLACE_KEYS, type Place, type PlaceKey } from "../../../shared/places/places.ts";
import { ALL_QUANTITIES } from "../../../shared/quantities/registry.ts";
import type { Quantity } from "../../../shared/quantities/types.ts";

/** Slots of a row, looked up once: this runs for every candidate of every sentence. */
interface Slots {
  readonly all: readonly PlaceKey[];
  readonly needed: ReadonlySet<PlaceKey>;
  readonly either: ReadonlySet<PlaceKey>;
}

const SLOTS = new Map<Quantity, Slots>();

function slotsOf(quantity: Quantity): Slots {
  let slots = SLOTS.get(quantity);
  if (slots === undefined) {
    const either = new Set(quantity.needsOneOf ?? []);
    const own = new Set<PlaceKey>([...quantity.needs, ...either, ...quantity.may]);
    slots = { all: PLACE_KEYS.filter((slot) => own.has(slot)), needed: new Set(quantity.needs), either };
    SLOTS.set(quantity, slots);
  }
  return slots;
}
for (const quantity of ALL_QUANTITIES) slotsOf(quantity);

/** Whether a quantity can be placed by a slot. */
export function takes(quantity: Quantity, slot: PlaceKey): boolean {
  return slotsOf(quantity).all.includes(slot);
}

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
  const moved = MOVING_KEYS.some((slot) => spoken.has(slot));
  fill(place, quantity, earlier, true, moved, implied);
  fill(place, quantity, context, sameQuantity, moved, implied);
  return implied;
}

function fill(place: Place, quantity: Quantity, from: Place, whole: boolean, moved: boolean, implied: PlaceKey[]): void {
  const slots = slotsOf(quantity);
  for (const slot of slots.all) {
    if (place[slot] !== undefined) continue;
    const needed = slots.needed.has(slot);
    const value = from[slot] ?? (needed ? twin(slot, from) : undefined);
    if (value === undefined || hasOther(quantity, slot, place)) continue;
    if (moved && CLEARED_KEYS.has(slot)) continue;
    if (!whole && !needed && !slots.either.has(slot)) continue;
    (place as Record<string, string | number>)[slot] = value;
    implied.push(slot);
  }
}

/** A rod's number is its cylinder's. */
function twin(slot: PlaceKey, from: Place): number | undefined {
  if (slot === "rod") return from.cylinder;
  return slot === "cylinder" ? from.rod : undefined;
}

/** Whether another slot that excludes this one is taken: a main and a rod, a piston and a rod, a head's nut and a main. */
export function hasOther(quantity: Quantity, slot: PlaceKey, place: Place): boolean {
  if (slot === "main" && place.rod !== undefined) return true;
  if (slot === "rod" && place.main !== undefined) return true;
  // A head's nut belongs to no main and no rod, whatever was spoken of before.
  if ((slot === "main" || slot === "rod") && place.fastener !== undefined && place.fastener !== slot) return true;
  const { either } = slotsOf(quantity);
  if (!either.has(slot)) return false;
  for (const other of either) if (other !== slot && place[other] !== undefined) return true;
  return false;
}
