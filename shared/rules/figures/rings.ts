// A ring's end gap over its whole travel: measured at one place, it closes where the bore is smaller and opens where it is larger.
import type { LoggedReading } from "../../build/build.ts";
import { type Inch, inch, minus, plus, tidy } from "../../compute/measure.ts";
import { ringGapChange } from "../../compute/ring.ts";
import type { Place } from "../../places/places.ts";
import { QUANTITIES } from "../../quantities/registry.ts";
import type { RuleContext } from "../context.ts";
import { number } from "../text.ts";
import { inLatestCondition, plain, valueIn, whichBore } from "./pick.ts";
import type { Figure, FigureValue } from "./types.ts";

interface Level {
  readonly depth: Place["depth"];
  /** Mean of the axes: what goes round a bore that is not round is pi times its mean width (Cauchy's formula, from memory). */
  readonly diameter: Inch;
  readonly readings: readonly LoggedReading[];
}

/** The bore at each depth that was measured, smallest first; of the latest condition that was. */
function levelsOf(context: RuleContext, cylinder: number): Level[] {
  const byDepth = new Map<Place["depth"], LoggedReading[]>();
  for (const logged of inLatestCondition(context, "bore_diameter", { cylinder })) {
    const { depth } = logged.reading.place;
    byDepth.set(depth, [...(byDepth.get(depth) ?? []), logged]);
  }
  return [...byDepth]
    .map(([depth, readings]): Level => {
      const sum = plus(...(readings.map((logged) => inch(valueIn(logged, "in"))) as [Inch, ...Inch[]]));
      return { depth, diameter: tidy(inch(sum / readings.length)), readings };
    })
    .sort((a, b) => a.diameter - b.diameter);
}

/** How much a ring's gap changes between the smallest and the largest level of its bore. */
export function gapSwing(context: RuleContext, cylinder: number): Inch {
  const levels = levelsOf(context, cylinder);
  const [smallest, largest] = [levels[0], levels.at(-1)];
  return smallest === undefined || largest === undefined ? inch(0) : ringGapChange(minus(largest.diameter, smallest.diameter));
}

const WHERE = {
  why: "where in the bore it was taken was not said",
  remedy: "Say where it was taken: top, middle or bottom of the bore.",
} as const;

/** What each reading of a level puts into the gap: pi times its share in the mean, or nothing. */
const byPi = ({ readings }: Level, sign: 1 | -1): number[] => readings.map(() => (sign * Math.PI) / readings.length);
const by0 = ({ readings }: Level): number[] => readings.map(() => 0);

function gap(place: Place, logged: LoggedReading | undefined, context: RuleContext): FigureValue | undefined {
  const read = plain(logged, "in");
  const levels = place.cylinder === undefined ? [] : levelsOf(context, place.cylinder);
  const [smallest, largest] = [levels[0], levels.at(-1)];
  if (read === undefined || smallest === undefined || largest === undefined || smallest.diameter === largest.diameter)
    return read;
  const taken = levels.find(({ depth }) => depth !== undefined && depth === place.depth);
  const bore = whichBore({ readings: smallest.readings, nominal: false });
  /** The gap at a level, from the one it was taken at; from the one that tries it most where nobody said which. */
  const gapAt = (level: Level, from: Level, what: string): FigureValue => {
    const by = minus(level.diameter, from.diameter);
    const value = tidy(plus(inch(read.value), ringGapChange(by)));
    const size = `${what} diameter, ${level.depth === undefined ? "" : `${level.depth} `}${number(level.diameter, "in")}`;
    const meets = value < 0 ? ", its ends meet" : "";
    return {
      value,
      working: `at the ${size}: ${number(read.value, "in")} ${by < 0 ? "-" : "+"} pi x ${number(Math.abs(by), "in")} = ${number(value, "in")}${meets}; ${from.depth === undefined || taken === undefined ? "taken nobody said where" : `taken at the ${from.depth}`}, ${bore}`,
      readings: level === from ? [...read.readings, ...level.readings] : [...read.readings, ...level.readings, ...from.readings],
      weights: level === from ? [1, ...by0(level)] : [1, ...byPi(level, 1), ...byPi(from, -1)],
      ...(taken === undefined ? { unsure: WHERE } : {}),
    };
  };
  const span = minus(largest.diameter, smallest.diameter);
  return {
    ...read,
    extremes: [gapAt(smallest, taken ?? largest, "smallest"), gapAt(largest, taken ?? smallest, "largest")],
    swing: {
      value: ringGapChange(span),
      working: `pi x (${number(largest.diameter, "in")} - ${number(smallest.diameter, "in")}), ${bore}`,
    },
  };
}

export const RING_FIGURES: readonly Figure[] = [
  {
    id: "ring_end_gap",
    label: QUANTITIES.ring_end_gap.label,
    unit: "in",
    from: ["ring_end_gap"],
    follows: ["bore_diameter"],
    places: (place) => [place],
    value: (place, context, condition) => gap(place, context.latest("ring_end_gap", place, condition), context),
  },
];
