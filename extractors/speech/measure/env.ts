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

export function envOf(context: Context, spec: Spec): Env {
  return {
    context,
    place: context.place ?? context.last?.place ?? {},
    spec,
    shop: { metric: context.unit_system === "metric", set: context.unit_system !== undefined },
  };
}
