// Head figures by cylinder: piston to head, compression ratio; and the valve spring's force at the sheet's length.

import type { LoggedReading } from "../../build/build.ts";
import { meanProtrusion, pistonToHead } from "../../compute/deck.ts";
import { cc, type Inch, inch, minus, squareInch, tidy } from "../../compute/measure.ts";
import { type Chamber, compressionRatio } from "../../compute/ratio.ts";
import { convertMeasure } from "../../compute/units.ts";
import type { Place } from "../../places/places.ts";
import { QUANTITIES } from "../../quantities/registry.ts";
import { figureStep } from "../../spec/sizes.ts";
import type { Condition } from "../../spec/spec.ts";
import type { RuleContext } from "../context.ts";
import { area, lengthAsSaid, lengthLabel, number, figure as text } from "../text.ts";
import { boreOf, newer, nominal, nominalStep, only, plain, sheetFigure, upTo, valueIn, within } from "./pick.ts";
import type { Figure, FigureValue } from "./types.ts";

interface Known {
  readonly value: Inch;
  readonly readings: readonly LoggedReading[];
  /** Step of its last digit where it is the sheet's. */
  readonly step?: number;
}

/** What the sheet leaves open in it, for a figure that answers to it by so much. */
const ofSheet = ({ step }: Known, by: number) => (step === undefined ? [] : [{ step, by }]);

/** Each of several readings has its share in their mean. */
const evenly = (readings: readonly LoggedReading[], by: number): number[] => readings.map(() => by / readings.length);

/** Protrusion of a piston: one reading, or the mean of one over each end of the pin. */
function protrusion(context: RuleContext, cylinder: number): Known | undefined {
  const found = within(context, "deck_protrusion", { cylinder });
  const newest = found.sort((a, b) => b.order - a.order)[0];
  if (newest === undefined) return undefined;
  const front = found.find((logged) => logged.reading.place.end === "front");
  const rear = found.find((logged) => logged.reading.place.end === "rear");
  if (newest.reading.place.end === undefined || front === undefined || rear === undefined) {
    return { value: inch(valueIn(newest, "in")), readings: [newest] };
  }
  return { value: meanProtrusion(inch(valueIn(front, "in")), inch(valueIn(rear, "in"))), readings: [front, rear] };
}

/** A size that was read, for the cylinder or the engine, else the sheet's figure of that name. */
function readOrSheet(context: RuleContext, quantity: "gasket_thickness" | "head_recess", cylinder: number): Known | undefined {
  const logged = context.latest(quantity, { cylinder }) ?? context.latest(quantity, {});
  if (logged !== undefined) return { value: inch(valueIn(logged, "in")), readings: [logged] };
  const sheet = sheetFigure(context.spec, quantity);
  return sheet === undefined ? undefined : { value: inch(sheet), readings: [], step: figureStep(context.spec, quantity) };
}

/** Crown to head from gasket, recess and protrusion, whether or not it was also measured outright. */
export function pistonToHeadFromSizes(context: RuleContext, cylinder: number): FigureValue | undefined {
  const p = protrusion(context, cylinder);
  const gasket = readOrSheet(context, "gasket_thickness", cylinder);
  const recess = readOrSheet(context, "head_recess", cylinder) ?? { value: inch(0), readings: [] };
  if (p === undefined || gasket === undefined) return undefined;
  const value = pistonToHead(gasket.value, recess.value, p.value);
  const [g, h, up] = [gasket.value, recess.value, p.value].map((part) => number(part, "in"));
  return {
    value,
    working: `gasket ${g} + recess ${h} - protrusion ${up} = ${number(value, "in")}`,
    readings: [...gasket.readings, ...recess.readings, ...p.readings],
    weights: [...evenly(gasket.readings, 1), ...evenly(recess.readings, 1), ...evenly(p.readings, -1)],
    sheet: [...ofSheet(gasket, 1), ...ofSheet(recess, 1)],
  };
}

interface KnownChamber {
  readonly chamber: Chamber;
  readonly readings: LoggedReading[];
  /** The part of the chamber that each reading gives, and its share in it. */
  readonly parts: readonly (readonly [keyof Chamber, number])[];
  /** The parts that are the sheet's, and the step of their last digit. */
  readonly sheet: readonly (readonly [keyof Chamber, number])[];
}

/** How much the ratio changes with one part of the chamber: a central difference over a thousandth of it. */
function slopeOf(chamber: Chamber, part: keyof Chamber): number {
  const size = Number(chamber[part]);
  const step = Math.max(Math.abs(size), 0.001) / 1000;
  const at = (value: number) => compressionRatio({ ...chamber, [part]: value });
  return (at(size + step) - at(size - step)) / (2 * step);
}

/** All that the ratio of one cylinder needs, as far as it is known. */
export function chamberOf(context: RuleContext, cylinder: number): KnownChamber | undefined {
  const poured = context.latest("chamber_volume", { cylinder });
  const p = protrusion(context, cylinder);
  const gasket = readOrSheet(context, "gasket_thickness", cylinder);
  const area = sheetFigure(context.spec, "gasket_area");
  const bore = boreOf(context, cylinder);
  const stroke = context.latest("stroke", {});
  const strokeLength = stroke === undefined ? nominal(context.spec, "stroke") : valueIn(stroke, "in");
  if (poured === undefined || p === undefined || gasket === undefined || bore === undefined) return undefined;
  if (area === undefined || strokeLength === undefined) return undefined;
  return {
    chamber: {
      bore: inch((bore.smallest + bore.largest) / 2),
      stroke: inch(strokeLength),
      chamber: cc(valueIn(poured, "cc")),
      gasketThickness: gasket.value,
      gasketArea: squareInch(area),
      protrusion: p.value,
    },
    readings: [poured, ...p.readings, ...gasket.readings, ...bore.readings, ...(stroke === undefined ? [] : [stroke])],
    parts: [
      ["chamber", 1],
      ...evenly(p.readings, 1).map((by) => ["protrusion", by] as const),
      ...evenly(gasket.readings, 1).map((by) => ["gasketThickness", by] as const),
      ...evenly(bore.readings, 1).map((by) => ["bore", by] as const),
      ...(stroke === undefined ? [] : [["stroke", 1] as const]),
    ],
    sheet: [
      ["gasketArea", figureStep(context.spec, "gasket_area")],
      ...(gasket.step === undefined ? [] : [["gasketThickness", gasket.step] as const]),
      ...(stroke === undefined ? [["stroke", nominalStep(context.spec, "stroke")] as const] : []),
    ],
  };
}

function ratioAt(context: RuleContext, cylinder: number): FigureValue | undefined {
  const known = chamberOf(context, cylinder);
  if (known === undefined) return undefined;
  const { chamber } = known;
  const value = compressionRatio(chamber);
  const parts = [
    `bore ${number(chamber.bore, "in")}`,
    `stroke ${number(chamber.stroke, "in")}`,
    `chamber ${number(chamber.chamber, "cc")} cc`,
    `gasket ${number(chamber.gasketThickness, "in")} x ${area(chamber.gasketArea)}`,
    `protrusion ${number(chamber.protrusion, "in")}`,
  ];
  return {
    value,
    working: `1 + swept / clearance from ${parts.join(", ")} = ${number(value, "ratio")}`,
    readings: known.readings,
    weights: known.parts.map(([part, by]) => by * slopeOf(chamber, part)),
    sheet: known.sheet.map(([part, step]) => ({ step, by: slopeOf(chamber, part) })),
  };
}

/** A reading for the whole engine bears on every cylinder. */
const cylinders = (place: { cylinder?: number | undefined }, count: number) =>
  (place.cylinder === undefined ? upTo(count) : [place.cylinder]).map((cylinder) => ({ cylinder }));

/** How far off the sheet's length a spring may be measured and still be held against its force (common practice, no source). */
const LENGTH_SLACK = 0.005;

function springForce(logged: LoggedReading | undefined, context: RuleContext): FigureValue | undefined {
  const value = plain(logged, "lbf");
  const wanted = sheetFigure(context.spec, "spring_length");
  const over = logged?.reading.over;
  if (value === undefined || wanted === undefined || over === undefined) return value;
  const length = convertMeasure(over.value, over.unit, "in");
  if (Math.abs(length - wanted) <= LENGTH_SLACK) return value;
  return { ...value, unfit: `it was read at ${lengthAsSaid(over)} ${lengthLabel()}, the limit is for ${text(wanted, "in")}` };
}

/** Force over how far the spring is squeezed from its free length: the mean rate of a spring wound even. */
function springRate(place: Place, context: RuleContext, condition?: Condition): FigureValue | undefined {
  const pressed = context.latest("valve_spring_force", place, condition);
  const free = context.latest("valve_spring_length", place, condition);
  const over = pressed?.reading.over;
  if (pressed === undefined || free === undefined || over === undefined) return undefined;
  const squeezed = valueIn(free, "in") - convertMeasure(over.value, over.unit, "in");
  if (!(squeezed > 0)) return undefined;
  const force = valueIn(pressed, "lbf");
  const value = tidy(force / squeezed);
  return {
    value,
    working: `${text(force, "lbf")} / (${number(valueIn(free, "in"), "in")} - ${lengthAsSaid(over)}) = ${text(value, "lbf_per_in")}`,
    readings: [pressed, free],
    weights: [1 / squeezed, -value / squeezed],
  };
}

export const HEAD_FIGURES: readonly Figure[] = [
  {
    id: "valve_spring_rate",
    label: QUANTITIES.valve_spring_rate.label,
    unit: "lbf_per_in",
    from: ["valve_spring_rate", "valve_spring_force", "valve_spring_length"],
    places: (place) => only(place, ["cylinder", "valve"]),
    value: (place, context, condition) =>
      newer(plain(context.latest("valve_spring_rate", place, condition), "lbf_per_in"), springRate(place, context, condition)),
  },
  {
    id: "piston_to_head",
    label: "Piston to head",
    unit: "in",
    from: ["piston_to_head", "deck_protrusion", "gasket_thickness", "head_recess"],
    places: (place, spec) => cylinders(place, spec.engine.cylinders),
    value: (place, context, condition) =>
      place.cylinder === undefined
        ? undefined
        : newer(plain(context.latest("piston_to_head", place, condition), "in"), pistonToHeadFromSizes(context, place.cylinder)),
  },
  {
    id: "compression_ratio",
    label: "Compression ratio",
    unit: "ratio",
    from: ["chamber_volume", "deck_protrusion", "gasket_thickness", "bore_diameter", "bore_oversize", "stroke"],
    places: (place, spec) => cylinders(place, spec.engine.cylinders),
    value: ({ cylinder }, context) => (cylinder === undefined ? undefined : ratioAt(context, cylinder)),
  },
  {
    id: "lobe_wear",
    label: "Lobe wear",
    unit: "in",
    from: ["lobe_lift"],
    places: (place) => only(place, ["cylinder", "valve"]),
    value: (place, context, condition) => {
      const logged = context.latest("lobe_lift", place, condition);
      const standard = nominal(context.spec, "lobe_lift");
      if (logged === undefined || standard === undefined) return undefined;
      const lift = inch(valueIn(logged, "in"));
      const value = minus(inch(standard), lift);
      return {
        value,
        working: `${number(standard, "in")} - ${number(lift, "in")} = ${number(value, "in")}`,
        readings: [logged],
        weights: [-1],
        sheet: [{ step: nominalStep(context.spec, "lobe_lift"), by: 1 }],
      };
    },
  },
  {
    id: "valve_spring_force",
    label: QUANTITIES.valve_spring_force.label,
    unit: "lbf",
    from: ["valve_spring_force"],
    places: (place) => [place],
    value: (place, context, condition?: Condition) =>
      springForce(context.latest("valve_spring_force", place, condition), context),
  },
];
