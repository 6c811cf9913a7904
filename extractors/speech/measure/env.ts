// What every stage may ask about the moment: context, engine, shop setting.

import type { Context } from "../../../shared/events/reading.ts";
import type { Place } from "../../../shared/places/places.ts";
import type { Spec } from "../../../shared/spec/spec.ts";
import type { Shop } from "./scale.ts";

export interface Env {
  readonly context: Context;
  readonly place: Place;
  readonly spec: Spec;
  readonly shop: Shop;
  /** The utterance corrects the last reading, so its quantity and place are no guess. */
  readonly correcting?: boolean;
}

/** A bare figure is in the system that was named for the moment, else in the engine's own. */
export function envOf(context: Context, spec: Spec): Env {
  const unit_system = context.unit_system ?? spec.units;
  return {
    context,
    place: context.place ?? context.last?.place ?? {},
    spec,
    shop: { metric: unit_system === "metric", set: unit_system !== undefined },
  };
}
