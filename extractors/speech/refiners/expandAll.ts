// "all four ten thou": one value for every place of a slot.
import { MOVING_KEYS, PLACE_KEYS, type PlaceKey } from "../../../shared/places/places.ts";
import { QUANTITIES } from "../../../shared/quantities/registry.ts";
import { along } from "../measure/list.ts";
import type { Kept, Refiner } from "../state.ts";

const PAIRS = PLACE_KEYS.filter((slot) => !MOVING_KEYS.includes(slot));

/** One reading a place when every place was spoken of at once. */
export const expandAll: Refiner = {
  name: "expandAll",
  refine(state) {
    const all = state.tokens.find((token) => token.sense.all !== undefined);
    const only = state.kept[0];
    if (all === undefined || only === undefined || state.kept.length !== 1) return state;
    const { draft } = only;
    const quantity = QUANTITIES[draft.quantity];
    const noun = state.tokens.find((token) => token.sense.noun === "main" || token.sense.noun === "rod")?.sense.noun;
    const takes = (slot: PlaceKey) =>
      quantity.needs.includes(slot) || quantity.needsOneOf?.includes(slot) === true || quantity.may.includes(slot);
    const four = all.text.includes("four");
    const wanted = all.sense.all === "both" ? PAIRS : MOVING_KEYS;
    const slot = wanted.find((key) => {
      if (!takes(key) || (draft.place[key] !== undefined && !draft.implied.includes(key))) return false;
      if (noun !== undefined && wanted === MOVING_KEYS) return key === noun;
      if (key === "main" && four) return false;
      if (wanted === PAIRS && along(key, state.env.spec, draft.place).length !== 2) return false;
      return true;
    });
    if (slot === undefined) return state;
    const kept: Kept[] = along(slot, state.env.spec, draft.place).map((value) => {
      const place = { ...draft.place, [slot]: value };
      const missing = draft.missing.filter(
        (key) => key !== slot && !(quantity.needsOneOf?.includes(slot) && quantity.needsOneOf.includes(key as PlaceKey)),
      );
      return { ...only, draft: { ...draft, place, missing, flags: [...draft.flags, "all"] } };
    });
    return { ...state, kept };
  },
};
