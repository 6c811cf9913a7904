// In, out, or too close to call: a measured value with its uncertainty against limits.
import { computation, input, Refusal } from "./computation.ts";
import { ABOVE_ZERO, NOT_NEGATIVE } from "./domain.ts";
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

/** Coverage factor of an expanded uncertainty. */
export const COVERAGE = 2;

/** How a shop decides: by what is proven, or by the numbers as they stand. */
export const DECISION_RULES = {
  probability_95: {
    label: "proven at 95 % probability",
    /** Guard band in standard uncertainties, against one limit: the normal distribution's 95 % point. */
    guard: 1.644853627,
    source: "ISO 14253-1:2017, default rule: conformance probability limit 95 %",
  },
  guard_band_2u: {
    label: "guard band of the expanded uncertainty",
    guard: COVERAGE,
    source: "ISO 14253-1:1998 and JCGM 106:2012, 8.3.2.2: guard band U = 2u",
  },
  simple_acceptance: {
    label: "numbers as they stand",
    guard: 0,
    source: "JCGM 106:2012, 8.2.1: simple acceptance, the risk shared",
  },
} as const;
export type DecisionRule = keyof typeof DECISION_RULES;
export const DECISION_RULE_NAMES = Object.keys(DECISION_RULES) as readonly DecisionRule[];
const PROVEN = 0.95;

/**
 * Probability and decision for a value with standard uncertainty `u`, all in one unit.
 * Probability: normal, JCGM 106:2012, 7.2. Decision: by `rule`; what is proven neither in nor out is too close to call.
 * A gauge so coarse that the chance of being within is small wherever it reads proves nothing of a value that reads within.
 * @throws RangeError for a negative uncertainty or limits that cross
 */
export function conformance(value: number, u: number, { low, high }: Band, rule: DecisionRule = "probability_95"): Conformance {
  if (!(u >= 0)) throw new RangeError(`Expected an uncertainty of zero or more, got ${u}`);
  if (low !== undefined && high !== undefined && low > high) {
    throw new RangeError(`Expected the low limit at or below the high one, got ${low} and ${high}`);
  }
  const within = (low === undefined || value >= low) && (high === undefined || value <= high);
  if (u === 0) return { probability: within ? 1 : 0, decision: within ? "in" : "out" };
  const upper = high === undefined ? 1 : normalCdf((high - value) / u);
  const lower = low === undefined ? 0 : normalCdf((low - value) / u);
  const probability = tidy(Math.max(0, upper - lower));
  if (rule === "simple_acceptance") return { probability, decision: within ? "in" : "out" };
  if (rule === "probability_95") {
    return { probability, decision: probability >= PROVEN ? "in" : probability <= 1 - PROVEN && !within ? "out" : "too_close" };
  }
  return { probability, decision: beyondGuard(value, DECISION_RULES[rule].guard * u, { low, high }) };
}

/** Limits drawn in by `guard` to accept, drawn out by it to reject. */
function beyondGuard(value: number, guard: number, { low, high }: Band): Decision {
  if ((low === undefined || minus(value, low) >= guard) && (high === undefined || minus(high, value) >= guard)) return "in";
  const out = (low !== undefined && minus(low, value) >= guard) || (high !== undefined && minus(value, high) >= guard);
  return out ? "out" : "too_close";
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

function tolerance({ low, high }: Required<Band>): number {
  if (low === undefined || high === undefined || !(high > low))
    throw new RangeError(`Expected a tolerance above zero, got ${low} to ${high}`);
  return minus(high, low);
}

/** Measurement capability index Cm = T / (4 u). Source: JCGM 106:2012, 7.6.3. */
export function capabilityIndex(u: number, band: Required<Band>): number {
  if (!(u > 0)) throw new RangeError(`Expected an uncertainty above zero, got ${u}`);
  return tidy(tolerance(band) / (4 * u));
}

/** Whether a step serves a tolerance. @throws RangeError for a step below zero or no tolerance */
export function capability(resolution: number, band: Required<Band>): Capability {
  if (!(resolution >= 0)) throw new RangeError(`Expected a resolution of zero or more, got ${resolution}`);
  const share = tidy(resolution / tolerance(band));
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
      uncertainty: {
        ...input.optional("any", "standard uncertainty (one sigma); give coverage=2 where it is an expanded one", NOT_NEGATIVE),
        difference: true as const,
      },
      within: input.optional(
        "percent",
        "or how far off the gauge may be, by what it reads: 4% for a torque wrench of ISO 6789-1",
        NOT_NEGATIVE,
      ),
      low: input.optional("any", "low limit"),
      high: input.optional("any", "high limit"),
      coverage: input.optional("ratio", "coverage factor the uncertainty is stated with; 1 when left out", ABOVE_ZERO),
      rule: input.optionalText("how to decide; probability_95 when left out", DECISION_RULE_NAMES),
    },
    unit: "ratio",
    formula:
      "p = Phi((high - value)/u) - Phi((low - value)/u); probability_95: in from p = 0.95, out to p = 0.05; guard_band_2u: 2u inside or beyond; simple_acceptance: as read",
    source:
      "JCGM 106:2012, 7.2 (probability); ISO 14253-1:2017 (decision, 95 % conformance probability), or the shop's own choice",
    run: (x) => {
      if ((x.uncertainty === undefined) === (x.within === undefined)) {
        throw new Refusal("missing_input", "Expected either uncertainty or within for conformance, got both or neither");
      }
      if (x.low === undefined && x.high === undefined)
        throw new RangeError("Expected a low or a high limit for conformance, got neither");
      const stated = x.uncertainty === undefined ? undefined : x.uncertainty / (x.coverage ?? 1);
      const u = stated ?? (Math.abs(x.value) * (x.within ?? 0)) / 100 / Math.sqrt(3);
      const rule = (x.rule ?? "probability_95") as DecisionRule;
      const { probability, decision } = conformance(x.value, u, { low: x.low, high: x.high }, rule);
      const said = sayConformance({ probability, decision });
      return {
        value: probability,
        parts: { decision, standard_uncertainty: tidy(u), guard_band: tidy(DECISION_RULES[rule].guard * u), said, rule },
      };
    },
  }),
  computation({
    id: "capability",
    title: "Whether an instrument can serve a tolerance",
    inputs: {
      resolution: { ...input.number("any", "smallest step of the instrument", ABOVE_ZERO), difference: true as const },
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
  computation({
    id: "capability-index",
    title: "Capability index of a measurement",
    inputs: {
      uncertainty: { ...input.number("any", "standard uncertainty", ABOVE_ZERO), difference: true as const },
      low: input.number("any", "low limit"),
      high: input.number("any", "high limit"),
    },
    unit: "ratio",
    formula: "Cm = (high - low) / (4 u)",
    source: "JCGM 106:2012, 7.6.3",
    run: (x) => ({ value: capabilityIndex(x.uncertainty, { low: x.low, high: x.high }) }),
  }),
];
