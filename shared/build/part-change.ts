// A part was changed or machined: readings taken on it before no longer hold, and say so.
import type { BenchEvent } from "../events/events.ts";
import { type Place, type PlaceKey, placeKey } from "../places/places.ts";
import { PARTS, type PartRow } from "./parts.ts";
import type { Build, LoggedReading, Touched } from "./types.ts";

/** Rods and cylinders share their numbers, so either slot answers for the other. */
const TWIN: Partial<Record<PlaceKey, PlaceKey>> = { rod: "cylinder", cylinder: "rod" };

const valueAt = (place: Place, slot: PlaceKey) => place[slot] ?? (TWIN[slot] === undefined ? undefined : place[TWIN[slot]]);
const isNumbered = (place: Place) => place.cylinder !== undefined || place.rod !== undefined || place.main !== undefined;

function onPart(row: PartRow, change: Place, place: Place): boolean {
  if (row.only !== undefined && place[row.only] === undefined) return false;
  return row.by.every((slot) => {
    const wanted = valueAt(change, slot);
    const got = valueAt(place, slot);
    // A reading of the whole engine is touched by a change to any one of its parts.
    return wanted === undefined || wanted === got || (got === undefined && !isNumbered(place));
  });
}

export function changePart(build: Build, event: Extract<BenchEvent, { type: "part.changed" }>): Touched {
  const { part, place, what } = event.data;
  build.changes.push({ id: event.id, order: build.count, at: event.at, part, place, what });
  const row = PARTS.find((candidate) => candidate.part === part);
  const keys = new Set([`part:${part}|${placeKey(place)}`]);
  const stale = (logged: LoggedReading) => {
    // One that gave way is marked too: it stands again when the newer one is struck, and must not stand as if fresh.
    if (logged.status === "struck" || logged.status === "rejected") return;
    if (row === undefined || !onPart(row, place, logged.reading.place)) return;
    logged.stale = { event: event.id, what };
    keys.add(`reading:${logged.reading.quantity}|${placeKey(logged.reading.place)}`);
  };
  for (const quantity of row?.quantities ?? []) for (const logged of build.byQuantity.get(quantity) ?? []) stale(logged);
  return [...keys];
}
