// How far the readings behind a figure can be trusted: what their gauges, the digits said, the temperature and the sheet leave open.
import type { Instrument, LoggedReading } from "../build/build.ts";
import { COVERAGE } from "../compute/conformance.ts";
import { combinedUncertainty, type Source, stepSource, type Term, temperatureSources } from "../compute/uncertainty.ts";
import { convertDifference, dimensionOf } from "../compute/units.ts";
import { QUANTITIES } from "../quantities/registry.ts";
import { stepOf } from "../spec/sizes.ts";
import type { LimitUnit } from "../spec/spec.ts";
import type { RuleContext } from "./context.ts";
import { valueIn } from "./figures/pick.ts";
import type { FigureValue } from "./figures/types.ts";
import { warmthOf } from "./temperature.ts";

export interface Trust {
  /** Expanded uncertainty of the figure, k = 2, in the figure's unit. */
  readonly expanded: number;
  /** The coarsest instrument behind it, as it is called. */
  readonly instrument: Instrument;
  /** What it is made of besides the gauges. */
  readonly besides: readonly string[];
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

const PARTS = { digits: "the digits said", warmth: "temperature", sheet: "the sheet's digits" } as const;

/** Step of the last digit said, where it is coarser than the gauge's own step: that much more is open (JCGM 100:2008, F.2.2.1). */
function digitsSource({ reading }: LoggedReading, instrument: Instrument): Source | undefined {
  const said = stepOf(reading.digits);
  const own = QUANTITIES[reading.quantity].unit;
  const step = convertDifference(said, reading.unit, own);
  const gauge = convertDifference(Number(instrument.resolution), instrument.unit, own);
  return step > gauge * (1 + 1e-9) ? { u: Math.sqrt(stepSource(step).u ** 2 - stepSource(gauge).u ** 2) } : undefined;
}

/** What is open in one reading besides its gauge, in the unit of its quantity. */
function besides(logged: LoggedReading, instrument: Instrument, context: RuleContext, parts: Set<string>): Source[] {
  const digits = digitsSource(logged, instrument);
  const warmth = warmthOf(logged, context);
  if (digits !== undefined) parts.add(PARTS.digits);
  if (warmth !== undefined) parts.add(PARTS.warmth);
  return [
    ...(digits === undefined ? [] : [digits]),
    ...(warmth === undefined ? [] : temperatureSources(valueIn(logged, "in"), warmth)),
  ];
}

/**
 * Expanded uncertainty of a figure by its sensitivity to each reading (JCGM 100:2008, 5.1.2); readings of one instrument share its
 * setting (5.2.2), which cancels in a difference and stays in a mean. Undefined when a reading's instrument is not kept, or nobody
 * knows how the figure hangs on it: then the limit is applied as it stands.
 */
export function trustOf(
  { readings, weights, sheet = [] }: Pick<FigureValue, "readings" | "weights" | "sheet">,
  unit: LimitUnit,
  context: RuleContext,
): Trust | undefined {
  const shares = new Map<Instrument, Share>();
  const parts = new Set<string>();
  const terms: Term[] = sheet.map(({ step, by }) => ({ sensitivity: by, sources: [stepSource(step)] }));
  if (sheet.length > 0) parts.add(PARTS.sheet);
  for (const [i, logged] of readings.entries()) {
    const weight = weights?.[i];
    if (weight === 0) continue;
    const instrument = context.instrumentOf(logged);
    const by = instrument === undefined ? undefined : sensitivity(weight, logged, instrument, unit);
    if (instrument === undefined || by === undefined) return undefined;
    const share = shares.get(instrument) ?? { sum: 0, squares: 0 };
    shares.set(instrument, { sum: share.sum + by, squares: share.squares + by ** 2 });
    const own = by / convertDifference(1, instrument.unit, QUANTITIES[logged.reading.quantity].unit);
    terms.push({ sensitivity: own, sources: besides(logged, instrument, context, parts) });
  }
  const gauges = [...shares].map(([instrument, share]) => ({ instrument, expanded: broughtBy(instrument, share) }));
  const coarsest = gauges.reduce<(typeof gauges)[number] | undefined>(
    (worst, gauge) => (worst === undefined || gauge.expanded > worst.expanded ? gauge : worst),
    undefined,
  );
  if (coarsest === undefined) return undefined;
  const rest = COVERAGE * combinedUncertainty(terms);
  return {
    expanded: Math.hypot(rest, ...gauges.map(({ expanded }) => expanded)),
    instrument: coarsest.instrument,
    besides: [...parts],
  };
}
