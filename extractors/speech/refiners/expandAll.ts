// "all four ten thou", "rod two nuts forty three": one value for every place of a slot, all of which wait for one yes.
import { MOVING_KEYS, PLACE_KEYS, type Place, type PlaceKey } from "../../../shared/places/places.ts";
import { QUANTITIES } from "../../../shared/quantities/registry.ts";
import type { Draft } from "../measure/draft.ts";
import type { Env } from "../measure/env.ts";
import { along } from "../measure/list.ts";
import type { Kept, Refiner, State } from "../state.ts";
import type { Token } from "../types.ts";

const PAIRS = PLACE_KEYS.filter((slot) => !MOVING_KEYS.includes(slot));

/** One reading a place when every place was spoken of at once. */
export const expandAll: Refiner = {
  name: "expandAll",
  refine(state) {
    const only = state.kept[0];
    if (only === undefined || state.kept.length !== 1) return state;
    const all = state.tokens.find((token) => token.sense.all !== undefined);
    const slots = all === undefined ? nutsOf(state, only.draft) : allOf(state, only.draft, all);
    if (slots.length === 0) return state;
    const { needsOneOf } = QUANTITIES[only.draft.quantity];
    const missing = only.draft.missing.filter((key) => {
      const either = needsOneOf?.some((slot) => slots.includes(slot)) && needsOneOf.includes(key as PlaceKey);
      return !slots.includes(key as PlaceKey) && !either;
    });
    const kept: Kept[] = placesAlong(slots, only.draft.place, state.env).map((place) => ({
      ...only,
      draft: { ...only.draft, place, missing, flags: [...only.draft.flags, "all"] },
    }));
    return { ...state, kept };
  },
};

const isSaid = ({ place, implied }: Draft, slot: PlaceKey): boolean => place[slot] !== undefined && !implied.includes(slot);

/** The slot of which "all" or "both" are meant; none where the quantity has no such. */
function allOf({ tokens, env: { spec } }: State, draft: Draft, all: Token): readonly PlaceKey[] {
  const { needs, needsOneOf, may } = QUANTITIES[draft.quantity];
  const noun = tokens.find((token) => token.sense.noun === "main" || token.sense.noun === "rod")?.sense.noun;
  const pair = all.sense.all === "both";
  const slot = (pair ? PAIRS : MOVING_KEYS).find((key) => {
    if (![...needs, ...(needsOneOf ?? []), ...may].includes(key) || isSaid(draft, key)) return false;
    if (pair) return along(key, spec, draft.place).length === 2;
    return noun === undefined ? !(key === "main" && all.text.includes("four")) : key === noun;
  });
  return slot === undefined ? [] : [slot];
}

/** "Rod two nuts": several were named, and none of them by itself; without a number it is the nuts of all rods. */
function nutsOf({ tokens }: State, draft: Draft): readonly PlaceKey[] {
  const named = tokens.some(
    ({ text, sense }, i) => sense.noun === "nut" && text.endsWith("s") && tokens[i + 1]?.sense.slots === undefined,
  );
  const { fastener } = draft.place;
  if (!named || isSaid(draft, "nut") || fastener === undefined) return [];
  if (fastener === "head") return ["nut"];
  return fastener === "rod" || fastener === "main" ? [...(isSaid(draft, fastener) ? [] : [fastener]), "nut"] : [];
}

/** Every place along the slots, one within the other. */
const placesAlong = (slots: readonly PlaceKey[], from: Place, { spec }: Env): readonly Place[] =>
  slots.reduce<readonly Place[]>(
    (places, slot) => places.flatMap((place) => along(slot, spec, place).map((value) => ({ ...place, [slot]: value }) as Place)),
    [from],
  );
