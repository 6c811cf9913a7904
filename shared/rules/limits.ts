// The limit rule: every figure of the build against the spec sheet's limits on it, with its arithmetic and its doubt.
import type { LoggedReading } from "../build/build.ts";
import type { Place } from "../places/places.ts";
import type { QuantityId } from "../quantities/types.ts";
import type { Limit } from "../spec/spec.ts";
import { isUnitId } from "../units/units.ts";
import type { RuleContext } from "./context.ts";
import { FIGURES, figuresFrom } from "./figures/figures.ts";
import { type Figure, type FigureValue, staleBecause } from "./figures/types.ts";
import type { Finding } from "./finding.ts";
import { limitsAt, readyLimit } from "./limit-bounds.ts";
import { remedyFor } from "./remedies/remedies.ts";
import type { Rule, Subject } from "./rule.ts";
import { coarseNote, guardedRuling, plainRuling, type Ruling } from "./rulings.ts";
import { GROUND, journals, settledBy } from "./settled.ts";
import { at, bounds, figure as figureText, sourceText } from "./text.ts";
import { trustOf } from "./uncertainty.ts";

/** The places of quantities whose limits are so much per inch of bore: a new bore size moves those limits. */
const RING_QUANTITIES: readonly QuantityId[] = ["ring_end_gap"];

function* subjectsOf(quantity: QuantityId, place: Place, context: RuleContext): Iterable<Subject> {
  for (const figure of figuresFrom(quantity)) {
    for (const where of figure.places(place, context.spec)) {
      for (const limit of limitsAt(figure, where, context)) yield { place: where, tag: limit.id };
    }
  }
  if (quantity === "journal_undersize") {
    for (const journal of GROUND) {
      for (const where of journals(context)) {
        for (const limit of limitsAt(FIGURES.get(journal) as Figure, where, context)) yield { place: where, tag: limit.id };
      }
    }
  }
  if (quantity !== "bore_diameter" && quantity !== "bore_oversize") return;
  for (const ring of RING_QUANTITIES) {
    for (const where of context.places(ring)) {
      if (place.cylinder === undefined || where.cylinder === place.cylinder) yield* subjectsOf(ring, where, context);
    }
  }
}

const evidenceOf = (readings: readonly LoggedReading[]): string[] => [...new Set(readings.flatMap((logged) => logged.evidence))];

function doubtRemedy(stale: string | undefined, { unfit }: FigureValue): string {
  if (stale !== undefined) return "Measure it again.";
  return unfit === undefined
    ? "Measure it with something finer, or several times and take the mean."
    : "Measure it as the limit asks.";
}

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
  const coarse = trust === undefined || ruling.verdict === "pass" ? "" : coarseNote(trust, ready, figure);
  const remedy =
    ruling.verdict === "fail" || ruling.verdict === "warn"
      ? remedyFor({ figure, place, value: value.value, accept: ready.accept, condition: limit.condition, context })
      : ruling.verdict === "unknown"
        ? doubtRemedy(stale, value)
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
