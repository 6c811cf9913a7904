// What to do about a figure outside its limit: a sentence worked out from the numbers at hand.
import { minus } from "../../compute/measure.ts";
import type { Place } from "../../places/places.ts";
import type { BearingKind, Trait } from "../../spec/engine.ts";
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

/** The middle of the accepted range, and how far above it the figure is; undefined where one end is open. */
export function fromMiddle({ value, accept }: Trouble): { readonly middle: number; readonly above: number } | undefined {
  if (accept.low === undefined || accept.high === undefined) return undefined;
  const middle = Number(((accept.low + accept.high) / 2).toPrecision(6));
  return { middle, above: minus(value, middle) };
}

/** A remedy that only some engines have: what the bearing at the place must be, and what the engine must have. */
export interface Suited {
  readonly at?: readonly BearingKind[];
  readonly needs?: readonly Trait[];
  readonly say: Remedy;
}

/** One remedy for every engine, or several of which the first that suits the engine speaks; none where none does. */
export type Advice = Remedy | readonly Suited[];

/** What to do when a figure is too small, and when it is too large. */
export interface RemedyRow {
  readonly low?: Advice;
  readonly high?: Advice;
}
