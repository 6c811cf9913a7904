// Mean, spread and the normal distribution: what repeated readings and uncertainties need.
import { computation, input } from "./computation.ts";
import { tidy } from "./measure.ts";

export interface Repeat {
  readonly mean: number;
  /** Experimental standard deviation, n - 1. */
  readonly deviation: number;
  /** Standard uncertainty of the mean. */
  readonly uncertainty: number;
}

/** @throws RangeError on an empty list */
export function mean(readings: readonly number[]): number {
  if (readings.length === 0) throw new RangeError("Expected at least one reading for a mean, got none");
  return tidy(readings.reduce((sum, value) => sum + value, 0) / readings.length);
}

/** Type A evaluation of repeated readings. Source: JCGM 100:2008 (GUM), 4.2. @throws RangeError below two readings */
export function repeatability(readings: readonly number[]): Repeat {
  const n = readings.length;
  if (n < 2) throw new RangeError(`Expected at least two readings, got ${n}`);
  const middle = mean(readings);
  const squares = readings.reduce((sum, value) => sum + (value - middle) ** 2, 0);
  const deviation = Math.sqrt(squares / (n - 1));
  return { mean: middle, deviation: tidy(deviation), uncertainty: tidy(deviation / Math.sqrt(n)) };
}

/**
 * Standard normal distribution function, to about 1e-15 near the middle: series inside |z| < 3, continued fraction outside.
 * Source: Abramowitz and Stegun, Handbook of Mathematical Functions, 26.2.11 and 26.2.14.
 */
export function normalCdf(z: number): number {
  if (Number.isNaN(z)) return Number.NaN;
  if (z < -40) return 0;
  if (z > 40) return 1;
  const density = Math.exp((-z * z) / 2) / Math.sqrt(2 * Math.PI);
  if (Math.abs(z) < 3) {
    let term = z;
    let sum = z;
    for (let n = 1; Math.abs(term) > 1e-17 && n < 200; n++) {
      term *= (z * z) / (2 * n + 1);
      sum += term;
    }
    return 0.5 + density * sum;
  }
  const x = Math.abs(z);
  let fraction = x;
  for (let n = 120; n >= 1; n--) fraction = x + n / fraction;
  const tail = density / fraction;
  return z > 0 ? 1 - tail : tail;
}

export const STATISTICS_COMPUTATIONS = [
  computation({
    id: "repeatability",
    title: "Mean and spread of repeated readings",
    inputs: { readings: input.list("any", "the same thing measured again and again", 2, 200) },
    unit: "any",
    formula: "mean; s = sqrt(sum (x - mean)^2 / (n - 1)); u(mean) = s / sqrt(n)",
    source: "JCGM 100:2008 (GUM), 4.2",
    run: (x) => {
      const { mean: value, deviation, uncertainty } = repeatability(x.readings);
      return { value, parts: { standard_deviation: deviation, standard_uncertainty: uncertainty } };
    },
  }),
];
