// In, out, or too close to call: a measured value with its uncertainty against limits.
import { computation, input } from "./computation.ts";
import { minus, tidy } from "./measure.ts";
import { normalCdf } from "./statistics.ts";

export type Decision = "in" | "out" | "too_close";

export interface Band {
  readonly low?: number | undefined;
  readonly high?: number | undefined;
}

export interface Conformance {
  /** Probability that the true value lies within the limits, 0 to 1. */
  readonly probability: number;
  readonly decision: Decision;
}

/** Coverage factor of an expanded uncertainty; also the guard band. */
export const COVERAGE = 2;

/**
 * Probability and decision for a value with standard uncertainty `u`, all in one unit.
 * Probability: normal, JCGM 106:2012, 7.2. Decision: ISO 14253-1, limits drawn in (to accept) or out (to reject) by the
 * expanded uncertainty U = 2u; between the two nothing is proven.
 * @throws RangeError for a negative uncertainty or limits that cross
 */
export function conformance(value: number, u: number, { low, high }: Band): Conformance {
  if (!(u >= 0)) throw new RangeError(`Expected an uncertainty of zero or more, got ${u}`);
  if (low !== undefined && high !== undefined && low > high) {
    throw new RangeError(`Expected the low limit at or below the high one, got ${low} and ${high}`);
  }
  const within = (low === undefined || value >= low) && (high === undefined || value <= high);
  if (u === 0) return { probability: within ? 1 : 0, decision: within ? "in" : "out" };
  const upper = high === undefined ? 1 : normalCdf((high - value) / u);
  const lower = low === undefined ? 0 : normalCdf((low - value) / u);
  const guard = COVERAGE * u;
  const surelyIn = (low === undefined || minus(value, low) >= guard) && (high === undefined || minus(high, value) >= guard);
  const surelyOut = (low !== undefined && minus(low, value) >= guard) || (high !== undefined && minus(value, high) >= guard);
  return { probability: tidy(Math.max(0, upper - lower)), decision: surelyIn ? "in" : surelyOut ? "out" : "too_close" };
}

/** Standard uncertainty from a step that is read to the nearest: half the step, rectangular (JCGM 100:2008, F.2.2.1). */
export function resolutionUncertainty(resolution: number): number {
  return tidy(resolution / Math.sqrt(12));
}

export interface Capability {
  /** Resolution as a share of the tolerance. */
  readonly share: number;
  /** At most a tenth is fine, up to a fifth is coarse, beyond it the instrument cannot serve (common practice, no source). */
  readonly verdict: "fine" | "coarse" | "too_coarse";
}

export function capability(resolution: number, { low, high }: Required<Band>): Capability {
  if (low === undefined || high === undefined || !(high > low))
    throw new RangeError(`Expected a tolerance above zero, got ${low} to ${high}`);
  const share = tidy(resolution / minus(high, low));
  return { share, verdict: share <= 0.1 ? "fine" : share <= 0.2 ? "coarse" : "too_coarse" };
}

/** "this feeler", "these feeler gauges". */
export function theseOrThis(instrument: string): string {
  return /[^s]s$/.test(instrument) ? `these ${instrument}` : `this ${instrument}`;
}

/** The verdict as it is said aloud: "too close to call with this feeler: 84 in 100 it is in". */
export function sayConformance({ probability, decision }: Conformance, instrument?: string): string {
  if (decision === "in") return "in";
  if (decision === "out") return "out";
  const chances = Math.min(99, Math.max(1, Math.round(probability * 100)));
  return `too close to call with ${theseOrThis(instrument ?? "instrument")}: ${chances} in 100 it is in`;
}

export const CONFORMANCE_COMPUTATIONS = [
  computation({
    id: "conformance",
    title: "In, out or too close to call",
    inputs: {
      value: input.number("any", "measured value"),
      uncertainty: input.number("any", "standard uncertainty (one sigma); give coverage=2 where it is an expanded one"),
      low: { ...input.number("any", "low limit"), optional: true as const },
      high: { ...input.number("any", "high limit"), optional: true as const },
      coverage: input.optional("ratio", "coverage factor the uncertainty is stated with; 1 when left out"),
    },
    unit: "ratio",
    formula: "p = Phi((high - value)/u) - Phi((low - value)/u); in when U = 2u inside both limits, out when beyond one by U",
    source: "JCGM 106:2012, 7.2 (probability); ISO 14253-1 (decision, guard band U with k = 2)",
    run: (x) => {
      const u = x.uncertainty / (x.coverage ?? 1);
      const { probability, decision } = conformance(x.value, u, { low: x.low, high: x.high });
      const said = sayConformance({ probability, decision });
      return {
        value: probability,
        parts: { decision, standard_uncertainty: tidy(u), guard_band: tidy(COVERAGE * u), said },
      };
    },
  }),
  computation({
    id: "capability",
    title: "Whether an instrument can serve a tolerance",
    inputs: {
      resolution: input.number("any", "smallest step of the instrument"),
      low: input.number("any", "low limit"),
      high: input.number("any", "high limit"),
    },
    unit: "ratio",
    formula: "share = resolution / (high - low); fine to 1/10, coarse to 1/5",
    source: "rule of ten: common practice, no source",
    run: (x) => {
      const { share, verdict } = capability(x.resolution, { low: x.low, high: x.high });
      return { value: share, parts: { verdict } };
    },
  }),
];
