// The form of a cylinder bore from its diameters at three depths and two axes: out-of-round, taper, wear.
import { COMMON_PRACTICE, computation, inches, input } from "./computation.ts";
import { ABOVE_ZERO } from "./domain.ts";
import { type Inch, inch, largest, minus, range, smallest } from "./measure.ts";

/** The two diameters at one depth; either may be missing while the bore is being measured. */
export interface BoreLevel {
  readonly thrust?: Inch | undefined;
  readonly axial?: Inch | undefined;
}

export interface BoreForm {
  /** Largest |thrust - axial| over the depths; undefined until one depth has both. */
  readonly outOfRound: Inch | undefined;
  /** Index of the depth where it is. */
  readonly outOfRoundAt: number | undefined;
  /** Largest (max - min along one axis); undefined until one axis has two depths. */
  readonly taper: Inch | undefined;
  readonly taperAxis: "thrust" | "axial" | undefined;
  readonly largest: Inch | undefined;
  readonly smallest: Inch | undefined;
}

const present = (values: readonly (Inch | undefined)[]): Inch[] => values.filter((value): value is Inch => value !== undefined);

/**
 * Bore form. Out-of-round at a depth is the difference of the two axes; taper is the spread along one axis.
 * Source: NAVEDTRA 14076 (Engineman), liner wear at three levels on two axes.
 */
export function boreForm(levels: readonly BoreLevel[]): BoreForm {
  let outOfRound: Inch | undefined;
  let outOfRoundAt: number | undefined;
  levels.forEach(({ thrust, axial }, at) => {
    if (thrust === undefined || axial === undefined) return;
    const here = inch(Math.abs(minus(thrust, axial)));
    if (outOfRound !== undefined && here <= outOfRound) return;
    outOfRound = here;
    outOfRoundAt = at;
  });
  let taper: Inch | undefined;
  let taperAxis: "thrust" | "axial" | undefined;
  for (const axis of ["thrust", "axial"] as const) {
    const along = present(levels.map((level) => level[axis]));
    if (along.length < 2) continue;
    const here = range(along);
    if (taper !== undefined && here <= taper) continue;
    taper = here;
    taperAxis = axis;
  }
  const all = present(levels.flatMap((level) => [level.thrust, level.axial]));
  return {
    outOfRound,
    outOfRoundAt,
    taper,
    taperAxis,
    largest: all.length === 0 ? undefined : largest(all),
    smallest: all.length === 0 ? undefined : smallest(all),
  };
}

/** Wear: the largest diameter less the standard's low limit (common practice, no source). */
export function boreWear(largestDiameter: Inch, standard: Inch): Inch {
  return minus(largestDiameter, standard);
}

export const BORE_COMPUTATIONS = [
  computation({
    id: "bore-form",
    title: "Out-of-round and taper of a bore",
    inputs: {
      readings: input.list(
        "in",
        "top thrust, top axial, middle thrust, middle axial, bottom thrust, bottom axial",
        6,
        6,
        ABOVE_ZERO,
      ),
      standard: input.optional("in", "standard bore, for the wear", ABOVE_ZERO),
    },
    unit: "in",
    formula: "out_of_round = max over depths |thrust - axial|; taper = max over axes (largest - smallest along the axis)",
    source: "NAVEDTRA 14076 (Engineman), liner wear measured at three levels on two axes",
    run: ({ readings, standard }) => {
      const levels = [0, 2, 4].map((at) => ({ thrust: readings[at], axial: readings[at + 1] }));
      const form = boreForm(levels);
      return {
        value: {
          out_of_round: inches(form.outOfRound ?? 0),
          taper: inches(form.taper ?? 0),
          largest: inches(form.largest ?? 0),
          smallest: inches(form.smallest ?? 0),
          out_of_round_by_depth: inches(levels.map(({ thrust, axial }) => boreForm([{ thrust, axial }]).outOfRound ?? 0)),
          taper_axis: form.taperAxis ?? "thrust",
          ...(standard === undefined || form.largest === undefined ? {} : { wear: inches(boreWear(form.largest, standard)) }),
        },
      };
    },
  }),
  computation({
    id: "bore-wear",
    title: "Wear of a bore",
    inputs: {
      largest: input.number("in", "largest diameter found", ABOVE_ZERO),
      standard: input.number("in", "standard bore, low limit", ABOVE_ZERO),
    },
    unit: "in",
    formula: "wear = largest - standard",
    source: COMMON_PRACTICE,
    run: (x) => ({ value: boreWear(x.largest, x.standard) }),
  }),
];
