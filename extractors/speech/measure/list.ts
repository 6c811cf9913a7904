// Values said in a row: along which slot they run, and the place each one gets.
import { PLACE_KEYS, type Place, type PlaceKey, valuesOf } from "../../../shared/places/places.ts";
import type { SlotValue } from "../../../shared/places/slots.ts";
import { QUANTITIES } from "../../../shared/quantities/registry.ts";
import type { Quantity } from "../../../shared/quantities/types.ts";
import type { Spec } from "../../../shared/spec/spec.ts";
import type { Draft } from "./draft.ts";

/** Stages of a torque whose fastener the sheet does not know. */
const USUAL_STAGES = [1, 2, 3];

/** Places along a slot in the order a list of them is read. */
export function along(slot: PlaceKey, spec: Spec, place: Place): readonly SlotValue[] {
  const values = valuesOf(slot, spec, place);
  return slot === "stage" && values.length === 0 ? USUAL_STAGES : values;
}

/** Slots a list may run along, first the registry's own. */
function slotsOf(quantity: Quantity): PlaceKey[] {
  const own: PlaceKey[] = quantity.listAlong === undefined ? [] : [quantity.listAlong];
  const takes = (slot: PlaceKey) =>
    quantity.needs.includes(slot) || quantity.needsOneOf?.includes(slot) === true || quantity.may.includes(slot);
  return [...own, ...PLACE_KEYS.filter((slot) => !own.includes(slot) && takes(slot))];
}

/** The slot a list of `n` values runs along, given what the first one's place says; undefined when none fits exactly. */
export function listSlot(draft: Draft, n: number, spec: Spec): PlaceKey | undefined {
  const quantity = QUANTITIES[draft.quantity];
  const spoken = (slot: PlaceKey) => draft.place[slot] !== undefined && !draft.implied.includes(slot);
  const bearing = quantity.needsOneOf?.find(spoken);
  return slotsOf(quantity).find((slot) => {
    if (spoken(slot)) return false;
    if ((slot === "main" || slot === "rod") && bearing !== undefined) return false;
    // A rod's nuts are not counted along the mains.
    if ((slot === "main" || slot === "rod") && draft.place.fastener !== undefined && draft.place.fastener !== slot) return false;
    return along(slot, spec, draft.place).length === n;
  });
}

/** The slot a list begins along when it is shorter than the slot ("twelve, fourteen" of three rings). */
export function openSlot(draft: Draft, n: number, spec: Spec): PlaceKey | undefined {
  const slot = QUANTITIES[draft.quantity].listAlong;
  if (slot === undefined || (draft.place[slot] !== undefined && !draft.implied.includes(slot))) return undefined;
  return along(slot, spec, draft.place).length > n ? slot : undefined;
}
