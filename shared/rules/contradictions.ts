// A figure measured outright against the same figure worked out from sizes: when they differ by more than the gauges allow, one is wrong.

import type { LoggedReading } from "../build/build.ts";
import { minus } from "../compute/measure.ts";
import { convertMeasure, dimensionOf } from "../compute/units.ts";
import type { Place, PlaceKey } from "../places/places.ts";
import { QUANTITIES } from "../quantities/registry.ts";
import type { QuantityId } from "../quantities/types.ts";
import type { Spec } from "../spec/spec.ts";
import type { RuleContext } from "./context.ts";
import { journalFromSizes } from "./figures/crank.ts";
import { FIT_ROWS } from "./figures/fits.ts";
import { pistonToHeadFromSizes } from "./figures/head.ts";
import { only, upTo, valueIn } from "./figures/pick.ts";
import type { FigureValue } from "./figures/types.ts";
import type { Rule, Subject } from "./rule.ts";
import { at, figure } from "./text.ts";

interface Row {
  readonly id: QuantityId;
  readonly from: readonly QuantityId[];
  places(place: Place, spec: Spec): readonly Place[];
  fromSizes(place: Place, context: RuleContext): FigureValue | undefined;
}

const journalSlots = (place: Place): Place[] => {
  const slots: readonly PlaceKey[] = place.main === undefined ? ["rod"] : ["main"];
  return only(place, slots);
};

const ROWS: readonly Row[] = [
  ...FIT_ROWS.map(
    (row): Row => ({
      id: row.id,
      from: [row.id, row.hole, row.shaft],
      places: (place) => only(place, row.slots),
      fromSizes: (place, context) => row.fromSizes(place, context),
    }),
  ),
  {
    id: "piston_to_head",
    from: ["piston_to_head", "deck_protrusion", "gasket_thickness", "head_recess"],
    places: (place, { engine }) =>
      (place.cylinder === undefined ? upTo(engine.cylinders) : [place.cylinder]).map((cylinder) => ({ cylinder })),
    fromSizes: ({ cylinder }, context) => (cylinder === undefined ? undefined : pistonToHeadFromSizes(context, cylinder)),
  },
  {
    id: "journal_out_of_round",
    from: ["journal_out_of_round", "main_journal_diameter", "crankpin_diameter"],
    places: journalSlots,
    fromSizes: (place, context) => journalFromSizes("outOfRound", place, context),
  },
];

/** Expanded uncertainty of one reading: its instrument's, else a step of the usual instrument (common practice, no source). */
function expanded(logged: LoggedReading, context: RuleContext): number {
  const instrument = context.instrumentOf(logged);
  if (instrument === undefined || dimensionOf(instrument.unit) !== "length")
    return QUANTITIES[logged.reading.quantity].resolution;
  return convertMeasure(Number(instrument.uncertainty), instrument.unit, "in");
}

export const CONTRADICTION: Rule = {
  id: "contradiction",
  title: "Figures measured twice over agree",
  subjects: (key, { spec }) => {
    if (key.kind !== "reading") return [];
    const rows = ROWS.filter((row) => row.from.some((quantity) => quantity === key.name));
    return rows.flatMap((row) => row.places(key.place, spec).map((place): Subject => ({ place, tag: row.id })));
  },
  check: ({ place, tag }, context) => {
    const row = ROWS.find((candidate) => candidate.id === tag);
    const direct = row === undefined ? undefined : context.latest(row.id, place);
    const worked = row?.fromSizes(place, context);
    if (row === undefined || direct === undefined || worked === undefined) return undefined;
    const readings = [direct, ...worked.readings];
    if (readings.some((logged) => logged.stale !== undefined)) return undefined;
    const value = valueIn(direct, "in");
    // Measured anywhere between the two extremes it agrees with both.
    const far = [worked, ...(worked.extremes ?? [])].map((one) => one.value);
    const nearest = Math.min(Math.max(value, Math.min(...far)), Math.max(...far));
    const difference = Math.abs(minus(value, nearest));
    const allowed = Math.sqrt(readings.reduce((sum, logged) => sum + expanded(logged, context) ** 2, 0));
    const agrees = difference <= allowed * (1 + 1e-9);
    const { label } = QUANTITIES[row.id];
    return {
      rule: "contradiction",
      verdict: agrees ? "pass" : "warn",
      place,
      value: difference,
      limit: `${figure(allowed, "in")} at most`,
      unit: "in",
      why: `${label}${at(place)} was measured as ${figure(value, "in")} and comes to ${figure(nearest, "in")} from sizes (${worked.working}); they differ by ${figure(difference, "in")}, ${agrees ? "within" : "more than"} the ${figure(allowed, "in")} the gauges allow.`,
      source: "root sum of squares of the gauges' uncertainties, JCGM 100:2008, 5.1.2",
      ...(agrees ? {} : { remedy: "One of them is wrong, misheard or at another place: measure both again." }),
      evidence: readings.flatMap((logged) => logged.evidence),
    };
  },
};
