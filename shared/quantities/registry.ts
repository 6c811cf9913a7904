// The quantity registry: every thing the book can hold a figure of, as data. Rows by area; the parser, the recogniser's
// grammar, the forms, the rules and the read-back are all written from these rows.
import { BEARINGS } from "./areas/bearings.ts";
import { BORES } from "./areas/bores.ts";
import { CRANK } from "./areas/crank.ts";
import { HEAD } from "./areas/head.ts";
import { PISTONS } from "./areas/pistons.ts";
import { RODS } from "./areas/rods.ts";
import { SHOP } from "./areas/shop.ts";
import { TORQUE } from "./areas/torque.ts";
import { VALVES } from "./areas/valves.ts";
import { QUANTITY_IDS, type Quantity, type QuantityId } from "./types.ts";

const ROWS: readonly Quantity[] = [...BORES, ...CRANK, ...BEARINGS, ...RODS, ...PISTONS, ...HEAD, ...TORQUE, ...VALVES, ...SHOP];

/** Every quantity by id. */
export const QUANTITIES: Readonly<Record<QuantityId, Quantity>> = Object.fromEntries(
  QUANTITY_IDS.map((id) => {
    const row = ROWS.find((quantity) => quantity.id === id);
    if (row === undefined) throw new Error(`Expected a registry row for ${id}, got none`);
    return [id, row];
  }),
) as Record<QuantityId, Quantity>;

export const ALL_QUANTITIES: readonly Quantity[] = QUANTITY_IDS.map((id) => QUANTITIES[id]);

/** Whether `id` names a quantity of the registry. */
export function isQuantityId(id: string): id is QuantityId {
  return Object.hasOwn(QUANTITIES, id);
}
