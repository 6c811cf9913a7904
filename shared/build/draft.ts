// A draft of a build: what it would be if some events more came. The build below is read, never written.
import { LayeredList, LayeredMap, LayeredSet, type List } from "./layers.ts";
import type { Build, LoggedReading } from "./types.ts";

/**
 * A build over another one. Events are applied to it as to any build, at the same cost, and the one below does not change.
 * Good for as long as the one below stays as it is: use it at once and let go of it.
 */
export function draftOf(build: Build): Build {
  // One reading stands in many lists: all of them must lend the same copy of it.
  const copies = new Map<LoggedReading, LoggedReading>();
  const reading = (below: LoggedReading): LoggedReading => {
    let copy = copies.get(below);
    if (copy === undefined) {
      copy = { ...below, revisions: [...below.revisions], evidence: [...below.evidence] };
      copies.set(below, copy);
    }
    return copy;
  };
  const readings = (below: List<LoggedReading>) => new LayeredList(below, reading);
  const record = <T extends object>(below: T): T => ({ ...below });
  return {
    ...build,
    seen: new LayeredSet(build.seen),
    readings: new LayeredMap(build.readings, reading),
    byKey: new LayeredMap(build.byKey, readings),
    standing: new LayeredMap(build.standing, (below) => new LayeredMap(below, reading)),
    byQuantity: new LayeredMap(build.byQuantity, readings),
    byDevice: new LayeredMap(build.byDevice, readings),
    waiting: new LayeredMap(build.waiting, reading),
    photos: new LayeredMap(build.photos, record),
    notes: new LayeredList(build.notes),
    utterances: new LayeredMap(build.utterances),
    changes: new LayeredList(build.changes),
    instruments: new LayeredMap(build.instruments, record),
    steps: new LayeredMap(build.steps, record),
    focus: new LayeredMap(build.focus, record),
    accepted: new LayeredList(build.accepted),
    setAside: new LayeredList(build.setAside),
  };
}
