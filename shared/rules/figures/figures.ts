// Every figure by id: each quantity of the registry as it is read, and the ones that are worked out.
import type { Place } from "../../places/places.ts";
import { ALL_QUANTITIES } from "../../quantities/registry.ts";
import type { QuantityId } from "../../quantities/types.ts";
import { BORE_FIGURES } from "./bore.ts";
import { CRANK_FIGURES } from "./crank.ts";
import { FIT_FIGURES } from "./fits.ts";
import { HEAD_FIGURES } from "./head.ts";
import { plain } from "./pick.ts";
import { RING_FIGURES } from "./rings.ts";
import { SPREAD_FIGURES } from "./spreads.ts";
import type { Figure } from "./types.ts";

const WORKED_OUT: readonly Figure[] = [
  ...BORE_FIGURES,
  ...FIT_FIGURES,
  ...CRANK_FIGURES,
  ...RING_FIGURES,
  ...HEAD_FIGURES,
  ...SPREAD_FIGURES,
];

const AS_READ: readonly Figure[] = ALL_QUANTITIES.map((quantity) => ({
  id: quantity.id,
  label: quantity.label,
  unit: quantity.unit,
  from: [quantity.id],
  places: (place: Place) => [place],
  value: (place, context, condition) => plain(context.latest(quantity.id, place, condition), quantity.unit),
}));

/** By id; what is worked out stands before a plain reading of the same name. */
export const FIGURES: ReadonlyMap<string, Figure> = new Map([...AS_READ, ...WORKED_OUT].map((figure) => [figure.id, figure]));

const BY_QUANTITY = new Map<QuantityId, Figure[]>();
for (const figure of FIGURES.values()) {
  for (const quantity of figure.from) {
    const list = BY_QUANTITY.get(quantity);
    if (list === undefined) BY_QUANTITY.set(quantity, [figure]);
    else list.push(figure);
  }
}

/** The figures that a reading of a quantity bears on. */
export function figuresFrom(quantity: QuantityId): readonly Figure[] {
  return BY_QUANTITY.get(quantity) ?? [];
}
