// What the rules on fasteners share: the fastener of a place, its range, and the newest torque at a nut.
import { type LoggedReading, readingKey } from "../build/build.ts";
import { type Inch, inch, type Measure, millimetre, type SquareInch, squareInch, threadsPerInch } from "../compute/measure.ts";
import { metricStressArea, stressArea } from "../compute/torque.ts";
import { convertMeasure } from "../compute/units.ts";
import { type Place, placeMatches } from "../places/places.ts";
import { lengthIn } from "../spec/sizes.ts";
import type { Spec } from "../spec/spec.ts";
import type { RuleContext } from "./context.ts";

export type Fastener = NonNullable<Spec["fasteners"]["rod"]>;

export function fastenerAt(place: Place, spec: Spec): Fastener | undefined {
  return place.fastener === undefined ? undefined : spec.fasteners[place.fastener];
}

/** A fastener's thread, inches: an inch one by its threads, a metric one by its pitch. */
export interface Thread {
  readonly diameter: Inch;
  readonly perInch: Measure<"threads_per_in">;
  /** Tensile stress area by the thread's own standard. */
  readonly area: SquareInch;
}

/** @throws RangeError for a fastener with neither threads nor pitch, which no sound sheet has */
export function threadOf({ majorDiameter, threadsPerInch: threads, pitch }: Fastener, spec: Spec): Thread {
  const diameter = inch(lengthIn(majorDiameter, spec));
  if (pitch !== undefined) {
    const area = metricStressArea(millimetre(lengthIn(majorDiameter, spec, "mm")), millimetre(Number(pitch)));
    return { diameter, perInch: threadsPerInch(25.4 / Number(pitch)), area: squareInch(convertMeasure(area, "mm2", "in2")) };
  }
  if (threads === undefined) throw new RangeError("Expected threads per inch or a pitch for the fastener, got neither");
  return { diameter, perInch: threadsPerInch(threads), area: stressArea(diameter, threadsPerInch(threads)) };
}

/** The nut itself: its place without the stage of tightening, its group named even where only rod or main was said. */
export function nutOf({ stage: _stage, cylinder, ...place }: Place): Place {
  const rod = place.rod ?? (place.main === undefined && place.fastener !== "head" ? cylinder : undefined);
  const group = place.fastener ?? (rod !== undefined ? "rod" : place.main !== undefined ? "main" : undefined);
  return { ...place, ...(rod === undefined ? {} : { rod }), ...(group === undefined ? {} : { fastener: group }) };
}

/** The newest torque at a nut, of any stage. */
export function torqueAt(context: RuleContext, nut: Place): LoggedReading | undefined {
  let newest: LoggedReading | undefined;
  for (const place of context.places("fastener_torque")) {
    if (!placeMatches(nut, place) || !placeMatches(nutOf(place), nut)) continue;
    const logged = context.latest("fastener_torque", place);
    if (logged !== undefined && (newest === undefined || logged.order > newest.order)) newest = logged;
  }
  return newest;
}

/** The newest torque at a nut, of any stage, that stood before a moment of the log. */
export function torqueBefore(context: RuleContext, nut: Place, order: number): LoggedReading | undefined {
  let newest: LoggedReading | undefined;
  for (const place of context.places("fastener_torque")) {
    if (!placeMatches(nut, place) || !placeMatches(nutOf(place), nut)) continue;
    const logged = context.build.byKey
      .get(readingKey("fastener_torque", place))
      ?.findLast((one) => one.order < order && (one.status === "counted" || one.status === "superseded"));
    if (logged !== undefined && (newest === undefined || logged.order > newest.order)) newest = logged;
  }
  return newest;
}

export const torqueIn = (logged: LoggedReading, unit: Fastener["unit"]): number =>
  Number(convertMeasure(logged.reading.value, logged.reading.unit, unit).toPrecision(12));

/** Every castle nut of the build that has been torqued. */
export function* castleNuts(context: RuleContext): Iterable<Place> {
  for (const place of context.places("fastener_torque")) {
    if (fastenerAt(place, context.spec)?.castle === true) yield nutOf(place);
  }
}

export const FOLLOW_MAKER = "The maker's manual wins over this.";
