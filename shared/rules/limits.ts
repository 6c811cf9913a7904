// The limit rule: every figure of the build against the spec sheet's limits on it, with its arithmetic and its doubt.
import type { LoggedReading } from "../build/build.ts";
import type { Place } from "../places/places.ts";
import type { QuantityId } from "../quantities/types.ts";
import type { Limit, Spec } from "../spec/spec.ts";
import { isUnitId } from "../units/units.ts";
import type { RuleContext } from "./context.ts";
import { FIGURES, figuresFrom } from "./figures/figures.ts";
import { upTo } from "./figures/pick.ts";
import { type Figure, type FigureValue, staleBecause } from "./figures/types.ts";
import type { Finding } from "./finding.ts";
import { limitsAt, readyLimit } from "./limit-bounds.ts";
import { remedyFor } from "./remedies/remedies.ts";
import type { Rule, Subject } from "./rule.ts";
import { coarseNote, guardedRuling, plainRuling, type Ruling } from "./rulings.ts";
import { settledBy } from "./settled.ts";
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
    figures: ["journal_out_of_round", "journal_taper"],
    places: ({ engine }) => [...upTo(engine.mains).map((main) => ({ main })), ...upTo(engine.cylinders).map((rod) => ({ rod }))],
  },
];

function* limitsOf(id: string, places: Iterable<Place>, context: RuleContext): Iterable<Subject> {
  const figure = FIGURES.get(id);
  if (figure === undefined) return;
  for (const place of places) for (const limit of limitsAt(figure, place, context)) yield { place, tag: limit.id };
}

/** Limits by the inch of bore move with the bore they are for. */
function* limitsByBore(bore: Place, context: RuleContext): Iterable<Subject> {
  for (const { on } of context.spec.limits.filter((limit) => limit.perInchOf === "bore")) {
    const figure = FIGURES.get(on);
    if (figure === undefined) continue;
    const read = figure.from.flatMap((quantity) => [...context.places(quantity)]);
    const same = read.filter((place) => bore.cylinder === undefined || place.cylinder === bore.cylinder);
    yield* limitsOf(
      on,
      same.flatMap((place) => figure.places(place, context.spec)),
      context,
    );
  }
}

function* subjectsOf(quantity: QuantityId, place: Place, context: RuleContext): Iterable<Subject> {
  for (const figure of figuresFrom(quantity)) yield* limitsOf(figure.id, figure.places(place, context.spec), context);
  for (const set of SETS) {
    if (set.from.includes(quantity)) for (const id of set.figures) yield* limitsOf(id, set.places(context.spec), context);
  }
  if (quantity === "bore_diameter" || quantity === "bore_oversize") yield* limitsByBore(place, context);
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
