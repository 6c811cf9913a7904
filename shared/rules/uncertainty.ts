// How far the readings behind a figure can be trusted: from the instruments kept for the shop, one expanded uncertainty.
import type { Instrument, LoggedReading } from "../build/build.ts";
import { convertDifference, dimensionOf } from "../compute/units.ts";
import { QUANTITIES } from "../quantities/registry.ts";
import type { LimitUnit } from "../spec/spec.ts";
import type { RuleContext } from "./context.ts";
import type { FigureValue } from "./figures/types.ts";

export interface Trust {
  /** Expanded uncertainty of the figure, k = 2, in the figure's unit. */
  readonly expanded: number;
  /** The coarsest instrument behind it, as it is called. */
  readonly instrument: Instrument;
}

/** Signed sum and sum of squares of what each reading of one instrument puts into the figure, by one unit of the instrument. */
interface Share {
  sum: number;
  squares: number;
}

/** How much the figure changes with a reading, in figure units by instrument unit; undefined where that is not known. */
function sensitivity(weight: number | undefined, logged: LoggedReading, instrument: Instrument, unit: LimitUnit) {
  const own = QUANTITIES[logged.reading.quantity].unit;
  if (dimensionOf(instrument.unit) !== dimensionOf(own)) return undefined;
  if (weight !== undefined) return weight * convertDifference(1, instrument.unit, own);
  return dimensionOf(instrument.unit) === dimensionOf(unit) ? convertDifference(1, instrument.unit, unit) : undefined;
}

/** Expanded uncertainty that one instrument brings: its setting is the same in all its readings, what it repeats within is not. */
function broughtBy(instrument: Instrument, { sum, squares }: Share): number {
  const whole = Number(instrument.uncertainty);
  // Where nobody said how it repeats, either part may be the whole of it: the larger outcome is taken.
  if (instrument.repeat === undefined) return whole * Math.sqrt(Math.max(sum ** 2, squares));
  const repeat = Math.min(Number(instrument.repeat), whole);
  return Math.sqrt((whole ** 2 - repeat ** 2) * sum ** 2 + repeat ** 2 * squares);
}

/**
 * Expanded uncertainty of a figure by its sensitivity to each reading (JCGM 100:2008, 5.1.2); readings of one instrument share its
 * setting (5.2.2), which cancels in a difference and stays in a mean. Undefined when a reading's instrument is not kept, or nobody
 * knows how the figure hangs on it: then the limit is applied as it stands.
 */
export function trustOf({ readings, weights }: FigureValue, unit: LimitUnit, context: RuleContext): Trust | undefined {
  const shares = new Map<Instrument, Share>();
  for (const [i, logged] of readings.entries()) {
    const weight = weights?.[i];
    if (weight === 0) continue;
    const instrument = context.instrumentOf(logged);
    const by = instrument === undefined ? undefined : sensitivity(weight, logged, instrument, unit);
    if (instrument === undefined || by === undefined) return undefined;
    const share = shares.get(instrument) ?? { sum: 0, squares: 0 };
    shares.set(instrument, { sum: share.sum + by, squares: share.squares + by ** 2 });
  }
  const parts = [...shares].map(([instrument, share]) => ({ instrument, expanded: broughtBy(instrument, share) }));
  const coarsest = parts.reduce<(typeof parts)[number] | undefined>(
    (worst, part) => (worst === undefined || part.expanded > worst.expanded ? part : worst),
    undefined,
  );
  if (coarsest === undefined) return undefined;
  return { expanded: Math.hypot(...parts.map(({ expanded }) => expanded)), instrument: coarsest.instrument };
}
