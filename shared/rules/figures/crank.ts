// Crank, bearing and rod figures: journal form, bend from run-out, clearance by kind of bearing, bend and twist per inch.

import { plasticGauge } from "../../compute/bearing.ts";
import { crankBend, journalForm } from "../../compute/journal.ts";
import { inch, minus } from "../../compute/measure.ts";
import { perInch } from "../../compute/rod.ts";
import { convertMeasure } from "../../compute/units.ts";
import { ENDS, type Place, placeMatches } from "../../places/places.ts";
import { QUANTITIES } from "../../quantities/registry.ts";
import type { QuantityId } from "../../quantities/types.ts";
import type { Condition } from "../../spec/spec.ts";
import type { RuleContext } from "../context.ts";
import { nutOf, torqueBefore } from "../fasteners.ts";
import { groundSet } from "../ground-set.ts";
import { lengthAsSaid, number } from "../text.ts";
import { newer, nominal, nominalStep, only, valueIn, within } from "./pick.ts";
import type { Figure, FigureValue } from "./types.ts";

const journalQuantity = (place: Place): QuantityId => (place.main === undefined ? "crankpin_diameter" : "main_journal_diameter");
const journalPlace = (place: Place): Place[] => {
  const main = only(place, ["main"]);
  return main.length > 0 ? main : only(place, ["rod"]);
};

/** Form from diameters at the ends and angles of one journal. */
export function journalFromSizes(
  kind: "outOfRound" | "taper",
  place: Place,
  context: RuleContext,
  condition?: Condition,
): FigureValue | undefined {
  const quantity = journalQuantity(place);
  const readings = within(context, quantity, place, condition).filter((logged) => logged.reading.place.angle !== undefined);
  const station = (end: Place["end"]) => {
    const of = (angle: Place["angle"]) => {
      const found = readings.find((logged) => logged.reading.place.end === end && logged.reading.place.angle === angle);
      return found === undefined ? undefined : inch(valueIn(found, "in"));
    };
    return { vertical: of("vertical"), horizontal: of("horizontal") };
  };
  // Readings that name no end count as one station.
  const value =
    journalForm(station(ENDS[0]), station(ENDS[1]))[kind] ?? journalForm(station(undefined), station(undefined))[kind];
  if (value === undefined || (kind === "taper" && !readings.some((logged) => logged.reading.place.end !== undefined))) {
    return undefined;
  }
  const sizes = readings.map((logged) => number(valueIn(logged, "in"), "in"));
  // Whichever two differ most: a difference of two readings of one gauge.
  const weights = readings.map((_, i) => (i === 0 ? 1 : i === 1 ? -1 : 0));
  return { value, working: `largest difference of ${sizes.join(", ")} = ${number(value, "in")}`, readings, weights };
}

/** The largest of the direct readings of a form at one journal. */
function direct(quantity: QuantityId, place: Place, context: RuleContext, condition?: Condition): FigureValue | undefined {
  const worst = within(context, quantity, place, condition).sort((a, b) => valueIn(b, "in") - valueIn(a, "in"))[0];
  return worst === undefined ? undefined : { value: valueIn(worst, "in"), working: "", readings: [worst] };
}

const journal = (id: QuantityId, kind: "outOfRound" | "taper"): Figure => ({
  id,
  label: QUANTITIES[id].label,
  unit: "in",
  from: [id, "main_journal_diameter", "crankpin_diameter"],
  places: journalPlace,
  value: (place, context, condition) =>
    newer(direct(id, place, context, condition), journalFromSizes(kind, place, context, condition)),
});

/** Clearance readings of one kind of bearing: the tighter end decides low, the looser high, so each end is held alone. */
const clearance = (id: string, label: string, slot: "main" | "rod"): Figure => ({
  id,
  label,
  unit: "in",
  from: ["bearing_clearance"],
  places: (place) => (place[slot] === undefined ? [] : [place]),
  value: (place, context, condition) => {
    const logged = context.latest("bearing_clearance", place, condition);
    return logged === undefined ? undefined : { value: valueIn(logged, "in"), working: "", readings: [logged] };
  },
});

const overLength = (id: string, label: string, quantity: QuantityId): Figure => ({
  id,
  label,
  unit: "in_per_in",
  from: [quantity],
  places: (place) => only(place, ["rod"]),
  value: (place, context, condition) => {
    const logged = context.latest(quantity, place, condition);
    const over = logged?.reading.over;
    if (logged === undefined || over === undefined) return undefined;
    const deviation = inch(valueIn(logged, "in"));
    const length = inch(convertMeasure(over.value, over.unit, "in"));
    const value = perInch(deviation, length);
    return {
      value,
      working: `${number(deviation, "in")} / ${lengthAsSaid(over)} = ${number(value, "in_per_in")}`,
      readings: [logged],
      weights: [1 / length],
    };
  },
});

/** Plastic gauge read at both ends of a bearing: how much the clearance differs between them. */
const bearingTaper: Figure = {
  id: "bearing_taper",
  label: "Taper of the bearing clearance",
  unit: "in",
  from: ["bearing_clearance"],
  places: journalPlace,
  value: (place, context, condition) => {
    const [front, rear] = ENDS.map((end) => context.latest("bearing_clearance", { ...place, end }, condition));
    if (front === undefined || rear === undefined) return undefined;
    const [a, b] = [inch(valueIn(front, "in")), inch(valueIn(rear, "in"))];
    const { taper } = plasticGauge(a, b);
    return {
      value: taper,
      working: `|${number(a, "in")} front - ${number(b, "in")} rear| = ${number(taper, "in")}`,
      readings: [front, rear],
      weights: [1, -1],
    };
  },
};

/** The undersize a journal was said to be ground to before a moment of the log; 0 where it stands at standard. */
function undersizeBefore(place: Place, order: number, context: RuleContext): number {
  const kind = place.main === undefined ? "crankpins" : "mains";
  const cut = within(context, "journal_undersize", {})
    .filter((logged) => logged.order < order)
    .filter(({ reading, ...logged }) =>
      reading.place.main === undefined && reading.place.rod === undefined
        ? groundSet({ reading, ...logged }, context) === kind
        : reading.place.main === place.main && reading.place.rod === place.rod,
    )
    .sort((a, b) => b.order - a.order)[0];
  return cut === undefined ? 0 : Math.abs(valueIn(cut, "in"));
}

/** Wear of a journal: its standard size, less the undersize it was ground to, less the smallest that was read on it. */
const journalWear: Figure = {
  id: "journal_wear",
  label: "Journal wear",
  unit: "in",
  from: ["main_journal_diameter", "crankpin_diameter"],
  places: journalPlace,
  value: (place, context, condition) => {
    const key = place.main === undefined ? "crankpin" : "main_journal";
    const standard = nominal(context.spec, key);
    const read = within(context, journalQuantity(place), place, condition);
    const smallest = read.sort((a, b) => valueIn(a, "in") - valueIn(b, "in"))[0];
    if (standard === undefined || smallest === undefined) return undefined;
    const size = minus(standard, undersizeBefore(place, smallest.order, context));
    const value = minus(size, valueIn(smallest, "in"));
    return {
      value,
      working: `${number(size, "in")} - ${number(valueIn(smallest, "in"), "in")} = ${number(value, "in")}`,
      readings: [smallest],
      weights: [-1],
      sheet: [{ step: nominalStep(context.spec, key), by: 1 }],
    };
  },
};

/** Largest difference among the readings of one housing bore; it tells nothing of a housing whose cap was not pulled up. */
const housing = (slot: "main" | "rod"): Figure => {
  const quantity = `${slot}_housing_bore` as const;
  return {
    id: `${slot}_housing_out_of_round`,
    label: `${QUANTITIES[quantity].label}: out-of-round`,
    unit: "in",
    from: [quantity, "fastener_torque"],
    places: (place) => (place.fastener !== undefined && place.fastener !== slot ? [] : only(place, [slot])),
    value: (place, context, condition) => {
      const read = within(context, quantity, place, condition).sort((a, b) => valueIn(b, "in") - valueIn(a, "in"));
      const [largest, smallest] = [read[0], read.at(-1)];
      if (largest === undefined || smallest === undefined || read.length < 2) return undefined;
      const [high, low] = [valueIn(largest, "in"), valueIn(smallest, "in")];
      const first = Math.min(...read.map(({ order }) => order));
      const nuts = [...context.places("fastener_torque")].filter((nut) => placeMatches({ fastener: slot, ...place }, nut));
      const pulled = nuts.some((nut) => torqueBefore(context, nutOf(nut), first) !== undefined);
      const value = minus(inch(high), inch(low));
      return {
        value,
        working: `${number(high, "in")} - ${number(low, "in")} = ${number(value, "in")}`,
        readings: read,
        weights: read.map((logged) => (logged === largest ? 1 : logged === smallest ? -1 : 0)),
        ...(pulled ? {} : { unfit: "no torque of its cap was logged before it: a cap that is not pulled up shows another bore" }),
      };
    },
  };
};

export const CRANK_FIGURES: readonly Figure[] = [
  journal("journal_out_of_round", "outOfRound"),
  journal("journal_taper", "taper"),
  {
    id: "crank_bend",
    label: "Crank bend",
    unit: "in",
    from: ["crank_runout_tir"],
    places: (place) => [place],
    value: (place, context, condition) => {
      const logged = context.latest("crank_runout_tir", place, condition);
      if (logged === undefined) return undefined;
      const tir = inch(valueIn(logged, "in"));
      const value = crankBend(tir);
      return { value, working: `${number(tir, "in")} / 2 = ${number(value, "in")}`, readings: [logged], weights: [0.5] };
    },
  },
  bearingTaper,
  housing("main"),
  housing("rod"),
  journalWear,
  clearance("main_clearance", "Main bearing clearance", "main"),
  clearance("rod_clearance", "Rod bearing clearance", "rod"),
  overLength("rod_bend_per_inch", "Rod bend by length", "rod_bend"),
  overLength("rod_twist_per_inch", "Rod twist by length", "rod_twist"),
];
