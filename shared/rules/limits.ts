// The limit rule: every figure of the build against the spec sheet's limits on it, with its arithmetic and its doubt.
import type { LoggedReading } from "../build/build.ts";
import { minus } from "../compute/measure.ts";
import type { Place } from "../places/places.ts";
import type { QuantityId } from "../quantities/types.ts";
import type { Limit, Spec } from "../spec/spec.ts";
import { isUnitId } from "../units/units.ts";
import type { RuleContext } from "./context.ts";
import { FIGURES, figuresFrom } from "./figures/figures.ts";
import { upTo } from "./figures/pick.ts";
import { type Figure, type FigureValue, staleBecause } from "./figures/types.ts";
import type { Finding, Verdict } from "./finding.ts";
import { limitsAt, readyLimit } from "./limit-bounds.ts";
import { remedyFor } from "./remedies/remedies.ts";
import { outdated, restingOn } from "./rests-on.ts";
import type { Rule, Subject } from "./rule.ts";
import { coarseNote, decidedBy, guardedRuling, plainRuling, type Ruling } from "./rulings.ts";
import { settledBy } from "./settled.ts";
import { WARMED } from "./temperature.ts";
import { at, bounds, figure as figureText, sourceText } from "./text.ts";
import { trustOf } from "./uncertainty.ts";

/** Readings that bear on a whole set: what is to be done about one bore, or one journal, is decided by the worst of all. */
const SETS: readonly {
  readonly from: readonly QuantityId[];
  readonly figures: readonly string[];
  places(spec: Spec): Place[];
}[] = [
  {
    from: ["bore_diameter", "score_depth"],
    figures: ["bore_out_of_round", "bore_taper", "bore_wear"],
    places: ({ engine }) => upTo(engine.cylinders).map((cylinder) => ({ cylinder })),
  },
  {
    from: ["main_journal_diameter", "crankpin_diameter", "journal_out_of_round", "journal_undersize"],
    figures: ["journal_out_of_round", "journal_taper", "journal_wear"],
    places: ({ engine }) => [...upTo(engine.mains).map((main) => ({ main })), ...upTo(engine.cylinders).map((rod) => ({ rod }))],
  },
];

function* limitsOf(id: string, places: Iterable<Place>, context: RuleContext): Iterable<Subject> {
  const figure = FIGURES.get(id);
  if (figure === undefined) return;
  for (const place of places) for (const limit of limitsAt(figure, place, context)) yield { place, tag: limit.id };
}

/** Limits by the inch of bore, and figures that follow it, move with the bore they are for. */
function* limitsByBore(quantity: QuantityId, bore: Place, context: RuleContext): Iterable<Subject> {
  for (const { on, perInchOf } of context.spec.limits) {
    const figure = FIGURES.get(on);
    if (figure === undefined || (perInchOf !== "bore" && !figure.follows?.includes(quantity))) continue;
    const read = figure.from.flatMap((quantity) => [...context.places(quantity)]);
    const same = read.filter((place) => bore.cylinder === undefined || place.cylinder === bore.cylinder);
    yield* limitsOf(
      on,
      same.flatMap((place) => figure.places(place, context.spec)),
      context,
    );
  }
}

function outdatedBecause({ readings }: FigureValue, context: RuleContext): string | undefined {
  for (const logged of readings) {
    const why = outdated(logged, context);
    if (why !== undefined) return why;
  }
  return undefined;
}

function* subjectsOf(quantity: QuantityId, place: Place, context: RuleContext): Iterable<Subject> {
  for (const figure of figuresFrom(quantity)) yield* limitsOf(figure.id, figure.places(place, context.spec), context);
  for (const set of SETS) {
    if (set.from.includes(quantity)) for (const id of set.figures) yield* limitsOf(id, set.places(context.spec), context);
  }
  if (quantity === "part_temperature")
    for (const size of WARMED) for (const where of context.places(size)) yield* subjectsOf(size, where, context);
  if (quantity === "bore_diameter" || quantity === "bore_oversize") yield* limitsByBore(quantity, place, context);
  for (const [id, where] of restingOn(quantity, place, context))
    for (const figure of figuresFrom(id)) yield* limitsOf(figure.id, figure.places(where, context.spec), context);
}

const evidenceOf = (readings: readonly LoggedReading[]): string[] => [...new Set(readings.flatMap((logged) => logged.evidence))];

function doubtRemedy(stale: string | undefined, { unfit, unsure }: FigureValue): string {
  if (stale !== undefined) return "Measure it again.";
  if (unsure !== undefined) return unsure.remedy;
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
  const stale = settled === undefined ? (staleBecause(value) ?? outdatedBecause(value, context)) : undefined;
  const found: Ruling =
    stale !== undefined
      ? { verdict: "unknown", said: `but a part of it was changed since (${stale}): measure again` }
      : value.unfit !== undefined
        ? { verdict: "unknown", said: `but ${value.unfit}` }
        : trust === undefined
          ? plainRuling(value.value, ready, figure)
          : guardedRuling(value.value, ready, figure, trust, context.spec.decision);
  const isOut = found.verdict === "fail" || found.verdict === "warn";
  const ruling: Ruling =
    isOut && value.unsure !== undefined
      ? { verdict: "unknown", said: `it may be as far ${found.said}, and ${value.unsure.why}` }
      : found;
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
    source: `${sourceText(limit.source)}${decidedBy(trust, context.spec.decision, figure.unit)}`,
    ...(remedy === undefined ? {} : { remedy }),
    ...(step === undefined ? {} : { step }),
    ...(settled === undefined || ruling.verdict === "pass" ? {} : { settled }),
    evidence: evidenceOf([...value.readings, ...ready.readings]),
  };
}

const WORST_FIRST: readonly Verdict[] = ["fail", "warn", "unknown", "pass"];

/** A figure with its extremes: each is held against the limit, and the worst speaks; where all pass, all are told. */
function judgeWhole(limit: Limit, figure: Figure, place: Place, value: FigureValue, context: RuleContext): Finding | undefined {
  const findings = [value, ...(value.extremes ?? [])].flatMap((one) => judge(limit, figure, place, one, context) ?? []);
  const [worst] = WORST_FIRST.flatMap((verdict) => findings.filter((finding) => finding.verdict === verdict));
  const swings = worst === undefined ? undefined : swingsTooFar(limit, figure, place, value, worst, context);
  if (swings !== undefined || worst?.verdict !== "pass" || value.extremes === undefined) return swings ?? worst;
  const told = value.extremes.map(({ working }) => working).join("; ");
  return {
    ...worst,
    why: worst.why.replace(/\.$/, `; ${told}.`),
    evidence: [...new Set(findings.flatMap(({ evidence }) => evidence))],
  };
}

/** What changes more over the part than the limit is wide lies outside it somewhere, wherever it was read. */
function swingsTooFar(
  limit: Limit,
  figure: Figure,
  place: Place,
  { swing, extremes = [] }: FigureValue,
  worst: Finding,
  context: RuleContext,
): Finding | undefined {
  const ready = swing === undefined ? undefined : readyLimit(limit, figure, place, context);
  const wide = ready?.reject ?? ready?.accept;
  if (swing === undefined || ready === undefined || wide?.low === undefined || wide.high === undefined) return undefined;
  if (worst.verdict === "fail" || worst.settled !== undefined || swing.value <= minus(wide.high, wide.low)) return undefined;
  return {
    ...worst,
    verdict: "fail",
    why: `${figure.label}${at(place)} changes by ${figureText(swing.value, figure.unit)} over the part (${swing.working}), more than ${ready.text} is wide: there is no place to read it that would make it good.`,
    remedy: "True the part first: nothing that is fitted to it can be within the limit all over.",
    evidence: [...new Set([...worst.evidence, ...evidenceOf(extremes.flatMap(({ readings }) => readings))])],
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
    return value === undefined ? undefined : judgeWhole(limit, figure, place, value, context);
  },
};
