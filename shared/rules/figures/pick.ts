// Small look-ups that figures share: a reading in a unit, the readings of a bore, sizes from readings, sheet or nominal.
import type { LoggedReading } from "../../build/build.ts";
import { convertMeasure } from "../../compute/units.ts";
import type { Place, PlaceKey } from "../../places/places.ts";
import type { NominalKey, QuantityId } from "../../quantities/types.ts";
import { figureOf, nominalsIn, stepIn } from "../../spec/sizes.ts";
import type { Condition, Spec } from "../../spec/spec.ts";
import type { UnitId } from "../../units/units.ts";
import type { RuleContext } from "../context.ts";
import type { FigureValue } from "./types.ts";

/** A reading's value in a unit of its dimension. */
export function valueIn(logged: LoggedReading, unit: UnitId): number {
  return convertMeasure(logged.reading.value, logged.reading.unit, unit);
}

/** A reading as a figure. */
export function plain(logged: LoggedReading | undefined, unit: UnitId): FigureValue | undefined {
  return logged === undefined ? undefined : { value: valueIn(logged, unit), working: "", readings: [logged] };
}

/** Of a direct reading and one worked out, the one that rests on the newest reading. */
export function newer(direct: FigureValue | undefined, derived: FigureValue | undefined): FigureValue | undefined {
  if (direct === undefined) return derived;
  if (derived === undefined) return direct;
  const order = (value: FigureValue) => Math.max(...value.readings.map((logged) => logged.order));
  return order(direct) >= order(derived) ? direct : derived;
}

/** Only the named slots of a place, and only if it has them all. */
export function only(place: Place, slots: readonly PlaceKey[]): Place[] {
  const kept: Record<string, unknown> = {};
  for (const slot of slots) {
    if (place[slot] === undefined) return [];
    kept[slot] = place[slot];
  }
  return [kept as Place];
}

/** Counted readings of a quantity whose place has the given slots' values, one a place. */
export function within(context: RuleContext, quantity: QuantityId, pattern: Place, condition?: Condition): LoggedReading[] {
  return context.within(quantity, pattern, condition);
}

/** Latest condition first: a finished size stands before a trial one, that before an as-found one. */
const LATEST_FIRST: readonly Condition[] = ["final", "machined", "trial", "as_found"];

/** The readings of a quantity under a pattern in the latest condition that has any fresh one. */
export function inLatestCondition(context: RuleContext, quantity: QuantityId, pattern: Place): LoggedReading[] {
  for (const condition of LATEST_FIRST) {
    const found = within(context, quantity, pattern, condition).filter((logged) => logged.stale === undefined);
    if (found.length > 0) return found;
  }
  return [];
}

export interface Size {
  readonly smallest: number;
  readonly largest: number;
  readonly readings: readonly LoggedReading[];
  /** True when nobody measured it: the size is the sheet's. */
  readonly nominal: boolean;
}

const WHEN: Readonly<Record<Condition, string>> = {
  as_found: "as found",
  machined: "as machined",
  trial: "at the trial",
  final: "finished",
};

/** Which readings of a bore were used: "bore as found", "bore finished". Empty where none was read. */
export function whichBore({ readings, nominal: unread }: Pick<Size, "readings" | "nominal">): string {
  const [first] = readings;
  return unread || first === undefined ? "" : `bore ${WHEN[first.condition]}`;
}

/** The bore a part runs in: measured where it was, else the sheet's standard with the oversize that was said. */
export function boreOf(context: RuleContext, cylinder: number): Size | undefined {
  return context.once(`bore ${cylinder}`, () => findBore(context, cylinder));
}

function findBore(context: RuleContext, cylinder: number): Size | undefined {
  const readings = inLatestCondition(context, "bore_diameter", { cylinder });
  if (readings.length > 0) {
    const values = readings.map((logged) => valueIn(logged, "in"));
    return { smallest: Math.min(...values), largest: Math.max(...values), readings, nominal: false };
  }
  const standard = nominal(context.spec, "bore");
  if (standard === undefined) return undefined;
  const oversize = context.latest("bore_oversize", { cylinder }) ?? context.latest("bore_oversize", {});
  const size = Number((standard + (oversize === undefined ? 0 : valueIn(oversize, "in"))).toFixed(6));
  return { smallest: size, largest: size, readings: oversize === undefined ? [] : [oversize], nominal: true };
}

/** First nominal of the sheet: the standard size, inches. */
export const nominal = (spec: Spec, key: NominalKey): number | undefined => nominalsIn(spec, key)[0];

/** Step of the last digit of the standard size, inches. */
export function nominalStep(spec: Spec, key: NominalKey): number {
  const [text = ""] = spec.nominals[key] ?? [];
  return stepIn(text, spec);
}

/** A figure of the sheet by name, in inches or square inches from whatever unit it is written in. */
export { figureOf as sheetFigure };

/** 1..n */
export function upTo(n: number): number[] {
  return Array.from({ length: n }, (_, i) => i + 1);
}
