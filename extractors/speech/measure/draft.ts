// A draft reading while it is being worked on: fields, what was implied, and coded remarks for the refiners.
import type { Place } from "../../../shared/places/places.ts";
import type { QuantityId } from "../../../shared/quantities/types.ts";
import type { Condition } from "../../../shared/spec/spec.ts";
import type { UnitId } from "../../../shared/units/units.ts";
import type { Dec, ValueExpr } from "../types.ts";

/** How the quantity came to be known, surest first. */
export type Known = "named" | "context" | "implied" | "guess";

/** A value scaled for one quantity. */
export interface Scaled {
  readonly dec: Dec;
  readonly unit: UnitId;
  /** The unit was not spoken. */
  readonly implied: boolean;
  /** in: inside the plausible band; near: outside, but a slip of the gauge or tongue away; far: not this quantity. */
  readonly fit: "in" | "near" | "far";
  readonly flags: readonly string[];
}

export interface Draft {
  readonly quantity: QuantityId;
  readonly known: Known;
  readonly place: Place;
  readonly implied: readonly string[];
  readonly value: Scaled;
  readonly expr: ValueExpr;
  /** Slots still needed, by name. */
  readonly missing: readonly string[];
  /** Slots whose value this engine does not have. */
  readonly absent: readonly string[];
  readonly flags: readonly string[];
  readonly score: number;
  readonly from: number;
  readonly to: number;
  readonly over?: Scaled | undefined;
  readonly condition?: Condition | undefined;
}
