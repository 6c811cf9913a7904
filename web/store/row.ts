// Which of the parcels that wait go next: in the order they were made, and none before one that it rests on.
import type { Parcel } from "./parcel.ts";

/** Ids that a parcel means nothing without: the opening of its build, and the entry it corrects, confirms, strikes or moves. */
function restsOn(parcel: Parcel): string[] {
  if (parcel.kind === "photo") return [parcel.build];
  const { type, data } = parcel.event;
  if (type === "build.opened") return [];
  return "target" in data ? [parcel.build, data.target] : [parcel.build];
}

/** The ids that stand for a parcel which is held back. The opening of a build stands for the build. */
const standsFor = (parcel: Parcel): string[] =>
  parcel.kind === "event" && parcel.event.type === "build.opened" ? [parcel.id, parcel.build] : [parcel.id];

/**
 * The parcels to send next: one photo, or at most `most` events of one build. One that was set aside goes alone, behind all
 * others, where `mayTry` says so. What rests on a parcel that is held back waits for it: a correction that came before its
 * reading would correct nothing.
 */
export function nextBatch(all: readonly Parcel[], most: number, mayTry: (id: string) => boolean): Parcel[] {
  const held = new Set<string>();
  const ready: Parcel[] = [];
  const aside: Parcel[] = [];
  for (const parcel of all) {
    const behind = restsOn(parcel).some((id) => held.has(id));
    if (parcel.refused === undefined && !behind) {
      ready.push(parcel);
      continue;
    }
    for (const id of standsFor(parcel)) held.add(id);
    if (!behind && parcel.refused?.kind === "aside" && mayTry(parcel.id)) aside.push(parcel);
  }
  const [first] = ready;
  if (first === undefined) return aside.slice(0, 1);
  if (first.kind === "photo") return [first];
  const end = ready.findIndex((parcel) => parcel.kind !== "event" || parcel.build !== first.build);
  return ready.slice(0, Math.min(most, end < 0 ? ready.length : end));
}
