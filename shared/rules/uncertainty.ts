// How far the readings behind a figure can be trusted: from the instruments kept for the shop, one expanded uncertainty.
import type { Instrument } from "../build/build.ts";
import { convertMeasure, dimensionOf } from "../compute/units.ts";
import type { LimitUnit } from "../spec/spec.ts";
import type { RuleContext } from "./context.ts";
import type { FigureValue } from "./figures/types.ts";

export interface Trust {
  /** Expanded uncertainty of the figure, k = 2, in the figure's unit. */
  readonly expanded: number;
  /** The coarsest instrument behind it, as it is called. */
  readonly instrument: Instrument;
}

/**
 * Expanded uncertainty of a figure that is a sum or difference of its readings: root of the sum of squares (JCGM 100:2008, 5.1.2).
 * Undefined when any reading's instrument is not kept, or the figure is no plain length, force or the like:
 * then nothing is known and the limit is applied as it stands.
 */
export function trustOf(value: FigureValue, unit: LimitUnit, context: RuleContext): Trust | undefined {
  let squares = 0;
  let coarsest: Trust | undefined;
  for (const logged of value.readings) {
    const instrument = context.instrumentOf(logged);
    if (instrument === undefined || dimensionOf(instrument.unit) !== dimensionOf(unit)) return undefined;
    const expanded = convertMeasure(Number(instrument.uncertainty), instrument.unit, unit);
    squares += expanded ** 2;
    if (coarsest === undefined || expanded > coarsest.expanded) coarsest = { expanded, instrument };
  }
  return coarsest === undefined ? undefined : { expanded: Math.sqrt(squares), instrument: coarsest.instrument };
}
