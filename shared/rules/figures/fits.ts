// Fits that are either measured outright or follow from two sizes: piston, pin, guide.
import type { LoggedReading } from "../../build/build.ts";
import { signedFit } from "../../compute/fit.ts";
import { inch } from "../../compute/measure.ts";
import type { Place, PlaceKey } from "../../places/places.ts";
import { QUANTITIES } from "../../quantities/registry.ts";
import type { QuantityId } from "../../quantities/types.ts";
import type { Condition } from "../../spec/spec.ts";
import type { RuleContext } from "../context.ts";
import { number } from "../text.ts";
import { boreOf, newer, only, plain, valueIn, whichBore } from "./pick.ts";
import type { Figure, FigureValue } from "./types.ts";

function difference(holes: readonly LoggedReading[], hole: number, shaft: LoggedReading): FigureValue {
  const size = valueIn(shaft, "in");
  const value = signedFit(inch(hole), inch(size));
  return {
    value,
    working: `${number(hole, "in")} - ${number(size, "in")} = ${number(value, "in")}`,
    readings: [...holes, shaft],
    weights: [...holes.map(() => 1), -1],
  };
}

/** What a fit comes to from the sizes of its two parts, whether or not it was also measured outright. */
export type FromSizes = (place: Place, context: RuleContext, condition?: Condition) => FigureValue | undefined;

export interface FitRow {
  readonly id: QuantityId;
  readonly hole: QuantityId;
  readonly shaft: QuantityId;
  readonly slots: readonly PlaceKey[];
  readonly fromSizes: FromSizes;
}

const bySizes =
  (hole: QuantityId, shaft: QuantityId): FromSizes =>
  (place, context, condition) => {
    const outer = context.latest(hole, place, condition);
    const inner = context.latest(shaft, place, condition);
    return outer === undefined || inner === undefined ? undefined : difference([outer], valueIn(outer, "in"), inner);
  };

/** The skirt would seize in the smallest diameter that was measured and slaps in the largest: both are the clearance. */
const pistonInBore: FromSizes = (place, context) => {
  if (place.cylinder === undefined) return undefined;
  const skirt = context.latest("piston_skirt_diameter", { cylinder: place.cylinder });
  const bore = boreOf(context, place.cylinder);
  if (skirt === undefined || bore === undefined || bore.nominal) return undefined;
  const at = (size: number, what: string): FigureValue => {
    const read = bore.readings.filter((logged) => valueIn(logged, "in") === size).slice(0, 1);
    const value = difference(read, size, skirt);
    return { ...value, working: `${value.working}${what}, ${whichBore(bore)}` };
  };
  if (bore.smallest === bore.largest) return at(bore.smallest, "");
  return { ...at(bore.smallest, " at the smallest"), extremes: [at(bore.largest, " at the largest")] };
};

export const FIT_ROWS: readonly FitRow[] = [
  {
    id: "piston_clearance",
    hole: "bore_diameter",
    shaft: "piston_skirt_diameter",
    slots: ["cylinder"],
    fromSizes: pistonInBore,
  },
  {
    id: "pin_fit_bush",
    hole: "bush_id",
    shaft: "pin_diameter",
    slots: ["cylinder"],
    fromSizes: bySizes("bush_id", "pin_diameter"),
  },
  {
    id: "pin_fit_boss",
    hole: "boss_id",
    shaft: "pin_diameter",
    slots: ["cylinder"],
    fromSizes: bySizes("boss_id", "pin_diameter"),
  },
  {
    id: "valve_guide_clearance",
    hole: "guide_id",
    shaft: "valve_stem_diameter",
    slots: ["cylinder", "valve"],
    fromSizes: bySizes("guide_id", "valve_stem_diameter"),
  },
];

export const FIT_FIGURES: readonly Figure[] = FIT_ROWS.map((row) => ({
  id: row.id,
  label: QUANTITIES[row.id].label,
  unit: "in",
  from: [row.id, row.hole, row.shaft],
  places: (place) => only(place, row.slots),
  value: (place, context, condition) =>
    newer(plain(context.latest(row.id, place, condition), "in"), row.fromSizes(place, context, condition)),
}));
