// Piston rings: end gap by bore, its swing over a worn bore, side clearance in the groove, and where the gaps stand.
import { COMMON_PRACTICE, computation, GEOMETRY, inches, input } from "./computation.ts";
import { ABOVE_ZERO, type Domain, NOT_NEGATIVE } from "./domain.ts";
import { type Degree, degree, type Inch, type InchPerInch, minus, tidy, times } from "./measure.ts";

/** A limit of the end gap for a bore: so much gap per inch of bore. */
export function ringGapLimit(bore: Inch, perInch: InchPerInch): Inch {
  return times(bore, perInch);
}

/** How much a ring's gap opens when the bore grows: the circumference grows by pi times the diameter. */
export function ringGapChange(boreChange: Inch): Inch {
  return tidy((Math.PI * boreChange) as Inch);
}

export interface GapExtremes {
  readonly atSmallest: Inch;
  readonly atLargest: Inch;
  /** The ends meet before the smallest diameter is reached. */
  readonly butts: boolean;
}

/** A gap measured at one bore, as it is at the smallest and at the largest diameter of the ring's travel. */
export function ringGapExtremes(gap: Inch, gapBore: Inch, smallest: Inch, largest: Inch): GapExtremes {
  const at = (bore: Inch): Inch => tidy((gap + ringGapChange(minus(bore, gapBore))) as Inch);
  return { atSmallest: at(smallest), atLargest: at(largest), butts: at(smallest) < 0 };
}

/** Groove width less ring width. */
export function ringSideClearance(groove: Inch, ring: Inch): Inch {
  return minus(groove, ring);
}

/** Where the gaps of `rings` rings stand when spread evenly, the first at `first`. */
export function gapPositions(rings: number, first: Degree): Degree[] {
  if (!Number.isInteger(rings) || rings < 1 || rings > 8) throw new RangeError(`Expected 1 to 8 rings, got ${rings}`);
  return Array.from({ length: rings }, (_, i) => degree(tidy((first + (i * 360) / rings) % 360)));
}

/** Smallest angle between any two gaps. */
export function closestGaps(positions: readonly Degree[]): Degree {
  let closest = 360;
  positions.forEach((a, i) => {
    for (const b of positions.slice(i + 1)) {
      const apart = Math.abs(a - b) % 360;
      closest = Math.min(closest, apart, 360 - apart);
    }
  });
  return degree(tidy(closest));
}

const RINGS: Domain = { least: 1, most: 8, whole: true };

export const RING_COMPUTATIONS = [
  computation({
    id: "ring-gap-limit",
    title: "Ring end gap for a bore",
    inputs: {
      bore: input.number("in", "bore the ring runs in", ABOVE_ZERO),
      "per-inch": input.number("in_per_in", "gap per inch of bore, such as 0.0035", NOT_NEGATIVE),
    },
    unit: "in",
    formula: "gap = bore x per-inch",
    source: "common practice: .003 to .0045 per inch of bore; .0035 is quoted in the trade as an SAE minimum, from memory",
    run: (x) => ({ value: ringGapLimit(x.bore, x["per-inch"]) }),
  }),
  computation({
    id: "ring-gap-change",
    title: "Change of ring gap with bore",
    inputs: { "bore-change": input.number("in", "change of the bore's diameter") },
    unit: "in",
    formula: "gap change = pi x bore change",
    source: `${GEOMETRY}; TM 5-3825-225-14&P, para 1-26, rounds it to .003 for .001`,
    run: (x) => ({ value: ringGapChange(x["bore-change"]) }),
  }),
  computation({
    id: "ring-gap-extremes",
    title: "Ring gap at the smallest and largest bore",
    inputs: {
      gap: input.number("in", "gap as measured", NOT_NEGATIVE),
      "gap-bore": input.number("in", "bore's diameter where it was measured", ABOVE_ZERO),
      smallest: input.number("in", "smallest diameter in the ring's travel", ABOVE_ZERO),
      largest: input.number("in", "largest diameter in the ring's travel", ABOVE_ZERO),
    },
    unit: "in",
    formula: "gap at a bore = gap + pi (bore - bore where it was measured); below zero the ends butt",
    source: `${GEOMETRY}; TM 5-3825-225-14&P, para 1-26, rounds it to .003 for .001`,
    run: (x) => {
      if (x.smallest > x.largest)
        throw new RangeError(`Expected smallest at or below largest, got ${x.smallest} and ${x.largest} in`);
      const { atSmallest, atLargest, butts } = ringGapExtremes(x.gap, x["gap-bore"], x.smallest, x.largest);
      return { value: atSmallest, parts: { at_largest: inches(atLargest), butts } };
    },
  }),
  computation({
    id: "ring-side-clearance",
    title: "Ring side clearance",
    inputs: { groove: input.number("in", "groove width", ABOVE_ZERO), ring: input.number("in", "ring width", ABOVE_ZERO) },
    unit: "in",
    formula: "side clearance = groove - ring",
    source: "TM 5-1940-277-34, ring side clearance by feeler",
    run: (x) => ({ value: ringSideClearance(x.groove, x.ring) }),
  }),
  computation({
    id: "ring-stagger",
    title: "Spacing of the ring gaps",
    inputs: { rings: input.number("ratio", "number of rings", RINGS), first: input.optional("deg", "where the top gap stands") },
    unit: "deg",
    formula: "spacing = 360 / rings; whether one stands over the pin or on a thrust face is not looked at here",
    source: "TM 5-3895-370-14&P: three rings, gaps 120 degrees apart",
    run: (x) => ({
      value: tidy(360 / x.rings),
      parts: { positions: gapPositions(x.rings, x.first ?? degree(0)) },
    }),
  }),
  computation({
    id: "ring-stagger-check",
    title: "How close two ring gaps stand",
    inputs: { positions: input.list("deg", "gap positions around the piston", 2, 8) },
    unit: "deg",
    formula: "smallest angle between any two gaps",
    source: COMMON_PRACTICE,
    run: (x) => ({ value: closestGaps(x.positions) }),
  }),
];
