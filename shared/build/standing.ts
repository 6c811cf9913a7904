// Which reading of a key stands: of each condition the newest one that nobody took back. Kept so that asking costs nothing.
import type { Condition } from "../spec/spec.ts";
import type { Build, LoggedReading } from "./types.ts";

const stands = (logged: LoggedReading): boolean => logged.status === "counted" || logged.status === "superseded";

/**
 * Of the readings under one key and condition that stand, only the newest counts; a struck newest lets the one before stand again.
 * `changed` is the reading whose status or key has just changed. Costs one step back per reading taken back at the end of the list.
 */
export function settle(build: Build, key: string, condition: Condition, changed: LoggedReading): void {
  const newest = build.byKey.get(key)?.findLast((logged) => logged.condition === condition && stands(logged));
  let standing = build.standing.get(key);
  const before = standing?.get(condition);
  // Only these two can be wrong: the one that stood before, and the one that has just come to stand behind a newer one.
  for (const logged of [before, changed]) {
    if (logged !== undefined && logged !== newest && logged.condition === condition && stands(logged))
      logged.status = "superseded";
  }
  if (newest === undefined) {
    standing?.delete(condition);
    return;
  }
  newest.status = "counted";
  if (standing === undefined) {
    standing = new Map();
    build.standing.set(key, standing);
  }
  standing.set(condition, newest);
}

/** The counted reading of a key: of one condition when that is asked, else the newest of all. */
export function standingAt(build: Build, key: string, condition?: Condition): LoggedReading | undefined {
  const standing = build.standing.get(key);
  if (standing === undefined || condition !== undefined) return condition === undefined ? undefined : standing?.get(condition);
  let newest: LoggedReading | undefined;
  for (const logged of standing.values()) if (newest === undefined || logged.order > newest.order) newest = logged;
  return newest;
}
