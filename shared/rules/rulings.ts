// How a value stands to its limit: by the numbers alone, or with an instrument's uncertainty; verdict and words out.
import { COVERAGE, capability, conformance, DECISION_RULES, type DecisionRule, sayConformance } from "../compute/conformance.ts";
import { convertDifference, dimensionOf } from "../compute/units.ts";
import type { LimitUnit } from "../spec/spec.ts";
import type { Figure } from "./figures/types.ts";
import type { Verdict } from "./finding.ts";
import type { ReadyLimit } from "./limit-bounds.ts";
import { type Bounds, bounds, figure as figureText, list } from "./text.ts";
import type { Trust } from "./uncertainty.ts";

/** Less than any gauge tells by far: what a size in millimetres gains or loses on its way through inches must not decide. */
const ROUNDING = 1e-9;

const inside = (value: number, { low, high }: Bounds): boolean =>
  (low === undefined || value >= low - ROUNDING) && (high === undefined || value <= high + ROUNDING);

export interface Ruling {
  readonly verdict: Verdict;
  /** How it stands to the limit, to end the sentence. */
  readonly said: string;
}

/** A pair of bounds, or the single one that the value passed. */
function allowed(value: number, { low, high }: Bounds, figure: Pick<Figure, "unit">): string {
  if (low !== undefined && high !== undefined) return bounds({ low, high }, figure.unit);
  const one = high !== undefined && value >= high ? high : (low ?? high);
  return one === undefined ? "no bound" : figureText(one, figure.unit);
}

/** `outside 0.0015 to 0.0025 in`, `over the 0.0030 in allowed`, `under the 40.5 lbf needed`. */
function beyond(value: number, ready: Pick<ReadyLimit, "accept" | "text">, figure: Pick<Figure, "unit">): string {
  const { low, high } = ready.accept;
  if (low !== undefined && high !== undefined) return `outside ${ready.text}`;
  return high !== undefined && value > high
    ? `over the ${figureText(high, figure.unit)} allowed`
    : `under the ${allowed(value, ready.accept, figure)} needed`;
}

/** Verdict by the numbers as they stand: exactly on a limit is inside it. */
export function plainRuling(
  value: number,
  ready: Pick<ReadyLimit, "accept" | "reject" | "text">,
  figure: Pick<Figure, "unit">,
): Ruling {
  if (inside(value, ready.accept)) return { verdict: "pass", said: `within ${ready.text}` };
  const out = beyond(value, ready, figure);
  if (ready.reject === undefined) return { verdict: "fail", said: out };
  const reject = allowed(value, ready.reject, figure);
  if (inside(value, ready.reject)) return { verdict: "warn", said: `${out}, not past the reject limit of ${reject}` };
  return { verdict: "fail", said: `${out} and past the reject limit of ${reject}` };
}

/** Verdict with an instrument's uncertainty, by the rule that the shop decides by. */
export function guardedRuling(
  value: number,
  ready: Pick<ReadyLimit, "accept" | "reject" | "text">,
  figure: Pick<Figure, "unit">,
  trust: Trust,
  rule: DecisionRule = "probability_95",
): Ruling {
  const u = trust.expanded / COVERAGE;
  const plain = plainRuling(value, ready, figure);
  const toAccept = conformance(value, u, ready.accept, rule);
  const doubtful = (said: string): Ruling => ({ verdict: "unknown", said: `${said}, limit ${ready.text}` });
  if (toAccept.decision === "too_close") return doubtful(sayConformance(toAccept, trust.instrument.kind));
  if (toAccept.decision === "in" || ready.reject === undefined) return plain;
  const toReject = conformance(value, u, ready.reject, rule);
  return toReject.decision === "too_close"
    ? doubtful(`outside for certain; against the reject limit ${sayConformance(toReject, trust.instrument.kind)}`)
    : plain;
}

/** The rule that decided, and by what doubt, to stand beside the limit's source; empty where the numbers were taken as they stand. */
export function decidedBy(trust: Trust | undefined, rule: DecisionRule | undefined, unit: LimitUnit): string {
  if (trust === undefined) return "";
  const { source } = DECISION_RULES[rule ?? "probability_95"];
  return `; decided by ${source}; U = ${figureText(Number(trust.expanded.toPrecision(2)), unit)} (k = ${COVERAGE}) of ${list(["the gauge", ...trust.besides])}`;
}

/** What is said of an instrument whose step is coarse for the tolerance; empty where it is fine. */
export function coarseNote(trust: Trust, ready: ReadyLimit, figure: Figure): string {
  const { low, high } = ready.accept;
  if (low === undefined || high === undefined) return "";
  if (dimensionOf(trust.instrument.unit) !== dimensionOf(figure.unit)) return "";
  const resolution = convertDifference(Number(trust.instrument.resolution), trust.instrument.unit, figure.unit);
  const { verdict } = capability(resolution, { low, high });
  if (verdict === "fine") return "";
  const step = figureText(resolution, figure.unit);
  return `; a step of ${step} is coarser than a tenth of the tolerance`;
}
