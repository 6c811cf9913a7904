// The limit rule: every figure of the build against the spec sheet's limits on it, with its arithmetic and its doubt.
import type { LoggedReading } from "../build/build.ts";
import { COVERAGE, capability, conformance, sayConformance } from "../compute/conformance.ts";
import { convertMeasure } from "../compute/units.ts";
import type { Place } from "../places/places.ts";
import type { QuantityId } from "../quantities/types.ts";
import type { Limit } from "../spec/spec.ts";
import { isUnitId } from "../units/units.ts";
import type { RuleContext } from "./context.ts";
import { FIGURES, figuresFrom } from "./figures/figures.ts";
import { type Figure, type FigureValue, newestOrder, staleBecause } from "./figures/types.ts";
import type { Finding, Verdict } from "./finding.ts";
import { limitsAt, type ReadyLimit, readyLimit } from "./limit-bounds.ts";
import { remedyFor } from "./remedies/remedies.ts";
import type { Rule, Subject } from "./rule.ts";
import { at, type Bounds, bounds, figure as figureText, sourceText } from "./text.ts";
import { type Trust, trustOf } from "./uncertainty.ts";

/** The places of quantities whose limits are so much per inch of bore: a new bore size moves those limits. */
const RING_QUANTITIES: readonly QuantityId[] = ["ring_end_gap"];

function* subjectsOf(quantity: QuantityId, place: Place, context: RuleContext): Iterable<Subject> {
  for (const figure of figuresFrom(quantity)) {
    for (const where of figure.places(place, context.spec)) {
      for (const limit of limitsAt(figure, where, context)) yield { place: where, tag: limit.id };
    }
  }
  if (quantity !== "bore_diameter" && quantity !== "bore_oversize") return;
  for (const ring of RING_QUANTITIES) {
    for (const where of context.places(ring)) {
      if (place.cylinder === undefined || where.cylinder === place.cylinder) yield* subjectsOf(ring, where, context);
    }
  }
}

const inside = (value: number, { low, high }: Bounds): boolean =>
  (low === undefined || value >= low) && (high === undefined || value <= high);

interface Ruling {
  readonly verdict: Verdict;
  /** How it stands to the limit, to end the sentence. */
  readonly said: string;
}

/** A pair of bounds, or the single one that the value passed. */
function allowed(value: number, { low, high }: Bounds, figure: Figure): string {
  if (low !== undefined && high !== undefined) return bounds({ low, high }, figure.unit);
  const one = high !== undefined && value >= high ? high : (low ?? high);
  return one === undefined ? "no bound" : figureText(one, figure.unit);
}

/** `outside 0.0015 to 0.0025 in`, `over the 0.0030 in allowed`, `under the 40.5 lbf needed`. */
function beyond(value: number, ready: ReadyLimit, figure: Figure): string {
  const { low, high } = ready.accept;
  if (low !== undefined && high !== undefined) return `outside ${ready.text}`;
  return high !== undefined && value > high
    ? `over the ${figureText(high, figure.unit)} allowed`
    : `under the ${allowed(value, ready.accept, figure)} needed`;
}

/** Verdict by the numbers as they stand: exactly on a limit is inside it. */
function plainRuling(value: number, ready: ReadyLimit, figure: Figure): Ruling {
  if (inside(value, ready.accept)) return { verdict: "pass", said: `within ${ready.text}` };
  const out = beyond(value, ready, figure);
  if (ready.reject === undefined) return { verdict: "fail", said: out };
  const reject = allowed(value, ready.reject, figure);
  if (inside(value, ready.reject)) return { verdict: "warn", said: `${out}, not past the reject limit of ${reject}` };
  return { verdict: "fail", said: `${out} and past the reject limit of ${reject}` };
}

/** Verdict with an instrument's uncertainty: ISO 14253-1 with the expanded uncertainty as guard band. */
function guardedRuling(value: number, ready: ReadyLimit, figure: Figure, trust: Trust): Ruling {
  const u = trust.expanded / COVERAGE;
  const plain = plainRuling(value, ready, figure);
  const toAccept = conformance(value, u, ready.accept);
  const doubtful = (said: string): Ruling => ({ verdict: "unknown", said: `${said}, limit ${ready.text}` });
  if (toAccept.decision === "too_close") return doubtful(sayConformance(toAccept, trust.instrument.kind));
  if (toAccept.decision === "in" || ready.reject === undefined) return plain;
  const toReject = conformance(value, u, ready.reject);
  return toReject.decision === "too_close"
    ? doubtful(`outside for certain; against the reject limit ${sayConformance(toReject, trust.instrument.kind)}`)
    : plain;
}

function coarseNote(trust: Trust, ready: ReadyLimit, figure: Figure): string {
  const { low, high } = ready.accept;
  if (low === undefined || high === undefined) return "";
  const resolution = convertMeasure(Number(trust.instrument.resolution), trust.instrument.unit, figure.unit);
  const { verdict } = capability(resolution, { low, high });
  if (verdict === "fine") return "";
  const step = figureText(resolution, figure.unit);
  return `; the ${trust.instrument.kind}'s step of ${step} is coarser than a tenth of the tolerance`;
}

/** A later size in another condition settles what was found before the work. */
function settledBy(limit: Limit, figure: Figure, place: Place, value: FigureValue, context: RuleContext): string | undefined {
  if (limit.condition !== "as_found") return undefined;
  const stale = staleBecause(value);
  if (stale !== undefined) return `as found; since then: ${stale}`;
  const later =
    figure.value(place, context, "final") ?? figure.value(place, context, "machined") ?? laterReading(figure, place, context);
  if (later !== undefined && newestOrder(later) > newestOrder(value)) return "as found; measured again after the work";
  return undefined;
}

/** A bore's finished size is often read once a cylinder: any finished reading of the same cylinder counts as the work done. */
function laterReading(figure: Figure, place: Place, context: RuleContext): FigureValue | undefined {
  for (const quantity of figure.from) {
    const logged = context.latest(quantity, place, "final") ?? context.latest(quantity, place, "machined");
    if (logged !== undefined) return { value: logged.reading.value, working: "", readings: [logged] };
  }
  return undefined;
}

const evidenceOf = (readings: readonly LoggedReading[]): string[] => [...new Set(readings.flatMap((logged) => logged.evidence))];

/** One figure's value held against one limit; the heart of the rule, also used for a reading of the past. */
export function judge(limit: Limit, figure: Figure, place: Place, value: FigureValue, context: RuleContext): Finding | undefined {
  const ready = readyLimit(limit, figure, place, context);
  if (ready === undefined) return undefined;
  const trust = trustOf(value, figure.unit, context);
  const settled = settledBy(limit, figure, place, value, context);
  const stale = settled === undefined ? staleBecause(value) : undefined;
  const ruling: Ruling =
    stale !== undefined
      ? { verdict: "unknown", said: `but a part of it was changed since (${stale}): measure again` }
      : value.unfit !== undefined
        ? { verdict: "unknown", said: `but ${value.unfit}` }
        : trust === undefined
          ? plainRuling(value.value, ready, figure)
          : guardedRuling(value.value, ready, figure, trust);
  const working = value.working === "" ? "" : ` (${value.working})`;
  const coarse = trust === undefined ? "" : coarseNote(trust, ready, figure);
  const remedy =
    ruling.verdict === "fail" || ruling.verdict === "warn"
      ? remedyFor({ figure, place, value: value.value, accept: ready.accept, condition: limit.condition, context })
      : undefined;
  const step = value.readings.at(-1)?.step;
  return {
    rule: limit.id,
    verdict: ruling.verdict,
    place,
    value: value.value,
    limit: bounds(ready.accept, figure.unit),
    unit: isUnitId(figure.unit) ? figure.unit : null,
    why: `${figure.label}${at(place)} is ${figureText(value.value, figure.unit)}${working}: ${ruling.said}${coarse}.`,
    source: sourceText(limit.source),
    ...(remedy === undefined ? {} : { remedy }),
    ...(step === undefined ? {} : { step }),
    ...(settled === undefined || ruling.verdict === "pass" ? {} : { settled }),
    evidence: evidenceOf([...value.readings, ...ready.readings]),
  };
}

export const LIMITS: Rule = {
  id: "limits",
  title: "Figures within the spec sheet's limits",
  subjects: (key, context) => (key.kind === "reading" ? subjectsOf(key.name as QuantityId, key.place, context) : []),
  check: ({ place, tag }, context) => {
    const limit = context.spec.limits.find((candidate) => candidate.id === tag);
    const figure = limit === undefined ? undefined : FIGURES.get(limit.on);
    if (limit === undefined || figure === undefined) return undefined;
    const value = figure.value(place, context, limit.condition);
    return value === undefined ? undefined : judge(limit, figure, place, value, context);
  },
};
