// Events folded into a build, one at a time and in place: in comes an event, out come the keys it touched.
// Cost of one event does not grow with the build, but for a part's change, which visits that part's readings.
import type { BenchEvent, EventType } from "../events/events.ts";
import { faultOf } from "../events/meaning.ts";
import type { Reading } from "../events/reading.ts";
import { type Place, placeKey } from "../places/places.ts";
import type { QuantityId } from "../quantities/types.ts";
import { withoutNonsense } from "../spec/sense.ts";
import { HANDLERS } from "./handlers.ts";
import { setAside } from "./set-aside.ts";
import { standingAt } from "./standing.ts";
import type { Build, LoggedReading, Touched } from "./types.ts";

export type * from "./types.ts";

/** Key of a quantity at a place: `ring_end_gap|cylinder=2;ring=top`. */
export function readingKey(quantity: QuantityId, place: Place): string {
  return `${quantity}|${placeKey(place)}`;
}

/**
 * Start a build from its first event. What makes no sense on its sheet is left out of it and set aside.
 * @throws RangeError when the event does not open a build
 */
export function openBuild(event: BenchEvent): Build {
  if (event.type !== "build.opened") throw new RangeError(`Expected build.opened for the first event, got ${event.type}`);
  const { spec, nonsense } = withoutNonsense(event.data.spec);
  const build: Build = {
    id: event.build,
    name: event.data.name,
    ...(event.data.customer === undefined ? {} : { customer: event.data.customer }),
    opened: event.at,
    spec,
    count: 1,
    seen: new Set([event.id]),
    readings: new Map(),
    byKey: new Map(),
    standing: new Map(),
    byQuantity: new Map(),
    byDevice: new Map(),
    waiting: new Map(),
    photos: new Map(),
    notes: [],
    utterances: new Map(),
    changes: [],
    instruments: new Map(),
    steps: new Map(),
    focus: new Map(),
    accepted: [],
    setAside: [],
  };
  for (const { say } of nonsense) setAside(build, event, "no_sense", say);
  return build;
}

/**
 * Fold one event into the build. An event already folded changes nothing and touches nothing.
 * One that makes no sense (logs of older versions hold such) is set aside under its name; all others count as if it were not there.
 */
export function apply(build: Build, event: BenchEvent): Touched {
  if (build.seen.has(event.id)) return [];
  build.seen.add(event.id);
  build.count += 1;
  try {
    const fault = faultOf(event);
    if (fault !== undefined) return setAside(build, event, fault.code, fault.say);
    if (!Object.hasOwn(HANDLERS, event.type)) throw new RangeError(`Expected a type of event that is known, got ${event.type}`);
    const handler = HANDLERS[event.type] as (build: Build, event: BenchEvent & { type: EventType }) => Touched;
    return handler(build, event);
  } catch {
    return setAside(build, event, "unreadable", `Expected an event of this version of the book, got ${String(event.type)}`);
  }
}

/** Fold a whole log; the first event must open the build. */
export function foldBuild(events: Iterable<BenchEvent>): Build {
  let build: Build | undefined;
  for (const event of events) {
    if (build === undefined) build = openBuild(event);
    else apply(build, event);
  }
  if (build === undefined) throw new RangeError("Expected at least one event for a build, got none");
  return build;
}

/** The standing reading of a quantity at a place: counted and, when asked, of one condition; the newest. */
export function latest(
  build: Build,
  quantity: QuantityId,
  place: Place,
  condition?: LoggedReading["condition"],
): LoggedReading | undefined {
  return standingAt(build, readingKey(quantity, place), condition);
}

/** All counted readings of a quantity, oldest first. */
export function counted(build: Build, quantity: QuantityId): LoggedReading[] {
  return [...(build.byQuantity.get(quantity) ?? [])].filter((logged) => logged.status === "counted");
}

/** Whether two readings say the same figure of the same thing. */
export function sameReading(a: Reading, b: Reading): boolean {
  return a.quantity === b.quantity && placeKey(a.place) === placeKey(b.place) && a.value === b.value && a.unit === b.unit;
}
