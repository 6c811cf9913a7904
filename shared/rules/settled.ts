// What settles a finding about parts as they were found: work done since, or a size decided for the whole set.

import type { Place } from "../places/places.ts";
import type { Limit } from "../spec/spec.ts";
import type { RuleContext } from "./context.ts";
import { type Figure, type FigureValue, newestOrder, staleBecause } from "./figures/types.ts";
import { groundSet } from "./ground-set.ts";
import { lengthAsSaid, lengthLabel } from "./text.ts";

/** A journal sent to the grinder is not held against what it was before. */
const GROUND: ReadonlySet<string> = new Set(["journal_out_of_round", "journal_taper", "journal_wear"]);

function groundSince(figure: Figure, { main, rod }: Place, value: FigureValue, context: RuleContext): string | undefined {
  if (!GROUND.has(figure.id)) return undefined;
  for (const logged of context.within("journal_undersize", {})) {
    const { place } = logged.reading;
    const named = place.main !== undefined || place.rod !== undefined;
    const same = named
      ? place.main === main && place.rod === rod
      : groundSet(logged, context) === (main === undefined ? "crankpins" : "mains");
    if (same && logged.order > newestOrder(value))
      return `as found; the set goes to ${lengthAsSaid(logged.reading)} ${lengthLabel()} of standard`;
  }
  return undefined;
}

/** A later size in another condition settles what was found before the work. */
export function settledBy(
  limit: Limit,
  figure: Figure,
  place: Place,
  value: FigureValue,
  context: RuleContext,
): string | undefined {
  const ground = groundSince(figure, place, value, context);
  if (limit.condition !== "as_found") return ground;
  const stale = staleBecause(value);
  if (stale !== undefined) return `as found; since then: ${stale}`;
  const later =
    figure.value(place, context, "final") ?? figure.value(place, context, "machined") ?? laterReading(figure, place, context);
  if (later !== undefined && newestOrder(later) > newestOrder(value)) return "as found; measured again after the work";
  return undefined;
}

/** A bore's finished size is often read once a cylinder: any finished reading of the same cylinder counts as the work done. */
function laterReading(figure: Figure, place: Place, context: RuleContext): FigureValue | undefined {
  for (const quantity of figure.from) {
    const logged = context.latest(quantity, place, "final") ?? context.latest(quantity, place, "machined");
    if (logged !== undefined) return { value: logged.reading.value, working: "", readings: [logged] };
  }
  return undefined;
}
