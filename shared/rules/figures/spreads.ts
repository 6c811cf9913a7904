// Spreads across a set: chambers, compression, masses. At least two of the set must have been read.
import type { LoggedReading } from "../../build/build.ts";
import { minus } from "../../compute/measure.ts";
import { type Place, placeLabel } from "../../places/places.ts";
import type { QuantityId } from "../../quantities/types.ts";
import type { Condition } from "../../spec/spec.ts";
import type { UnitId } from "../../units/units.ts";
import type { RuleContext } from "../context.ts";
import { number } from "../text.ts";
import { valueIn, within } from "./pick.ts";
import type { Figure, FigureValue } from "./types.ts";

interface SpreadRow {
  readonly id: string;
  readonly label: string;
  readonly quantity: QuantityId;
  readonly unit: UnitId;
  /** As a share of the largest, in percent. */
  readonly percent?: true;
  /** Which set a reading belongs to. */
  set(place: Place): Place;
}

const ROWS: readonly SpreadRow[] = [
  { id: "chamber_spread", label: "Spread of the chambers", quantity: "chamber_volume", unit: "cc", set: () => ({}) },
  {
    id: "compression_spread",
    label: "Spread of the compression",
    quantity: "compression_pressure",
    unit: "psi",
    percent: true,
    set: (place) => (place.stage === undefined ? {} : { stage: place.stage }),
  },
  {
    id: "lobe_lift_spread",
    label: "Spread of the lobe lifts",
    quantity: "lobe_lift",
    unit: "in",
    set: ({ valve }) => (valve === undefined ? {} : { valve }),
  },
  {
    id: "mass_spread",
    label: "Spread of the masses",
    quantity: "mass",
    unit: "g",
    set: ({ part, end }) => ({ ...(part === undefined ? {} : { part }), ...(end === undefined ? {} : { end }) }),
  },
];

function spread(row: SpreadRow, place: Place, context: RuleContext, condition?: Condition): FigureValue | undefined {
  const key = JSON.stringify(place);
  const readings = within(context, row.quantity, place, condition).filter(
    (logged) => JSON.stringify(row.set(logged.reading.place)) === key,
  );
  const sorted = readings.sort((a, b) => valueIn(b, row.unit) - valueIn(a, row.unit));
  const top = sorted[0];
  const bottom = sorted.at(-1);
  if (top === undefined || bottom === undefined || sorted.length < 2) return undefined;
  const say = (logged: LoggedReading) => `${number(valueIn(logged, row.unit), row.unit)} (${placeLabel(logged.reading.place)})`;
  const range = minus(valueIn(top, row.unit), valueIn(bottom, row.unit));
  const value = row.percent ? Number(((100 * range) / valueIn(top, row.unit)).toPrecision(12)) : range;
  const [high, low] = [valueIn(top, row.unit), valueIn(bottom, row.unit)];
  // 100 (1 - low / high) by each of the two; the ones between have no part in it.
  const [byTop, byBottom] = row.percent ? [(100 * low) / high ** 2, -100 / high] : [1, -1];
  const weights = sorted.map((logged) => (logged === top ? byTop : logged === bottom ? byBottom : 0));
  const share = row.percent ? `, ${number(value, "percent")} % of the largest` : "";
  return { value, working: `${say(top)} - ${say(bottom)} = ${number(range, row.unit)}${share}`, readings: sorted, weights };
}

export const SPREAD_FIGURES: readonly Figure[] = ROWS.map((row) => ({
  id: row.id,
  label: row.label,
  unit: row.percent ? "percent" : row.unit,
  from: [row.quantity],
  places: (place) => [row.set(place)],
  value: (place, context, condition) => spread(row, place, context, condition),
}));
