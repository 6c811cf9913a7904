// Where "next" goes: the same kind of place, one further, as far as the engine has them.
import type { Focus } from "../../shared/build/build.ts";
import type { Place } from "../../shared/places/places.ts";
import type { Engine } from "../../shared/spec/spec.ts";

const COUNTED = [
  { slot: "main", count: (engine: Engine) => engine.mains },
  { slot: "rod", count: (engine: Engine) => engine.cylinders },
  { slot: "cylinder", count: (engine: Engine) => engine.cylinders },
] as const;

/** The next place after the focus, or undefined when that was the last one. Nothing open yet means cylinder 1. */
export function nextPlace(focus: Focus, engine: Engine): Place | undefined {
  const row = COUNTED.find(({ slot }) => focus.place[slot] !== undefined);
  if (row === undefined) return { cylinder: 1 };
  const number = (focus.place[row.slot] ?? 0) + 1;
  if (number > row.count(engine)) return undefined;
  // A nut's group stays ("rod three nut B" after "rod two nut B" is said, never assumed); only the number moves on.
  return focus.place.fastener === undefined ? { [row.slot]: number } : { fastener: focus.place.fastener, [row.slot]: number };
}
