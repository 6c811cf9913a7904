// Shape of the case tables: what must come out first, the ways to say it after.
import type { Context } from "../../../../shared/events/reading.ts";
import type { Place } from "../../../../shared/places/places.ts";
import type { QuantityId } from "../../../../shared/quantities/types.ts";
import type { UnitId } from "../../../../shared/units/units.ts";

/** One figure as it must be read: quantity, place, decimal text, unit; a leading "?" on the text means it waits for a yes. */
export type Expected = readonly [quantity: QuantityId, place: Place, digits: string, unit: UnitId];

export interface Accepted {
  readonly is: readonly Expected[];
  readonly say: readonly string[];
  readonly context?: Context;
}

/** Sentences that must give no accepted reading but this question. */
export interface Refused {
  readonly of: QuantityId;
  readonly code: string;
  readonly say: readonly string[];
  readonly context?: Context;
}

export interface Cases {
  readonly accepted: readonly Accepted[];
  readonly refused: readonly Refused[];
}

export const is = (...expected: Expected): Pick<Accepted, "is"> => ({ is: [expected] });
