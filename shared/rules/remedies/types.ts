// What to do about a figure outside its limit: a sentence worked out from the numbers at hand.
import type { Place } from "../../places/places.ts";
import type { Condition } from "../../spec/spec.ts";
import type { RuleContext } from "../context.ts";
import type { Figure } from "../figures/types.ts";
import type { Bounds } from "../text.ts";

export interface Trouble {
  readonly figure: Figure;
  readonly place: Place;
  readonly value: number;
  readonly accept: Bounds;
  /** The condition the limit speaks of, if it names one. */
  readonly condition: Condition | undefined;
  readonly context: RuleContext;
}

/** Undefined when the numbers at hand do not tell what to do. */
export type Remedy = (trouble: Trouble) => string | undefined;

/** What to do when a figure is too small, and when it is too large. */
export interface RemedyRow {
  readonly low?: Remedy;
  readonly high?: Remedy;
}
