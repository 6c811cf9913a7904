// A figure is what a limit speaks of: a reading as it stands, or something worked out from several readings.
import type { LoggedReading } from "../../build/build.ts";
import type { Place } from "../../places/places.ts";
import type { QuantityId } from "../../quantities/types.ts";
import type { Condition, LimitUnit, Spec } from "../../spec/spec.ts";
import type { RuleContext } from "../context.ts";

export interface FigureValue {
  /** In the figure's unit. */
  readonly value: number;
  /** How it came about, as arithmetic: `3.9050 - 3.9012 = 0.0038`. Empty for a plain reading. */
  readonly working: string;
  /** The readings it rests on. */
  readonly readings: readonly LoggedReading[];
  /**
   * How much the figure changes with each of its readings, in the figure's unit by the unit of the reading's quantity, signed.
   * Where it is left out, each counts once, whichever way.
   */
  readonly weights?: readonly number[];
  /** Figures of the sheet it rests on: the step of their last digit, in the unit they are taken in, and how the figure answers to them. */
  readonly sheet?: readonly { readonly step: number; readonly by: number }[];
  /** Why it cannot be held against a limit, if so. */
  readonly unfit?: string;
  /** The same figure where it is least or most, when one reading does not tell it; each is held against the limit as well. */
  readonly extremes?: readonly FigureValue[];
  /** Set where the figure may lie better than this: outside a limit it then proves nothing until this is done. */
  readonly unsure?: { readonly why: string; readonly remedy: string };
  /** How much the figure changes over the part, wherever it was read: a limit that is narrower cannot be met. */
  readonly swing?: { readonly value: number; readonly working: string };
}

export interface Figure {
  readonly id: string;
  readonly label: string;
  readonly unit: LimitUnit;
  /** Quantities it is made of. */
  readonly from: readonly QuantityId[];
  /** Quantities that move it without being part of it: it is held against its limits again wherever it has been read. */
  readonly follows?: readonly QuantityId[];
  /** Where the figure stands when one of its quantities is read at `place`. */
  places(place: Place, spec: Spec): readonly Place[];
  /** The figure at a place; from readings of one condition when that is asked. */
  value(place: Place, context: RuleContext, condition?: Condition): FigureValue | undefined;
}

/** Number of the newest event the figure rests on. */
export function newestOrder(value: FigureValue): number {
  return value.readings.reduce((order, logged) => Math.max(order, logged.order), 0);
}

/** What was done to a part since one of its readings was taken, if anything. */
export function staleBecause(value: FigureValue): string | undefined {
  return value.readings.find((logged) => logged.stale !== undefined)?.stale?.what;
}
