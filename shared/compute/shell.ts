// Shell bearings: what the shells stand proud of their housing (crush), what they are wider free (spread), and the torqued housing.
import { computation, GEOMETRY, inches, input } from "./computation.ts";
import { ABOVE_ZERO, NOT_NEGATIVE } from "./domain.ts";
import { STEEL_MODULUS } from "./elastic.ts";
import { type Inch, inch, largest, lbfPerSquareInch, type Measure, minus, range, smallest, tidy, times } from "./measure.ts";
import { mean } from "./statistics.ts";

export interface Crush {
  /** What the housing takes up on the diameter: circumference / pi. */
  readonly interference: Inch;
  /** Hoop stress in a steel back when the housing does not give: the most it can be. */
  readonly stress: Measure<"lbf_per_in2">;
}

/**
 * What a pair of half-shells is squeezed by. `gap` is read by feeler at the parting face with one bolt torqued and the other
 * slacked off: all of the pair's extra circumference stands there. @throws RangeError when the housing is not above zero
 */
export function crush(gap: Inch, housing: Inch): Crush {
  if (!(housing > 0)) throw new RangeError(`Expected a housing bore above zero, got ${housing} in`);
  const interference = inch(tidy(gap / Math.PI));
  return { interference, stress: lbfPerSquareInch(tidy((STEEL_MODULUS * interference) / housing)) };
}

/** How much wider a half-shell is across its open ends, free, than the bore it goes into. At or below zero it will not stay put. */
export function bearingSpread(free: Inch, housing: Inch): Inch {
  return minus(free, housing);
}

/** Clearance that shells of a wall thickness will give in a torqued housing. */
export function shellClearance(housing: Inch, wall: Inch, journal: Inch): Inch {
  return minus(minus(housing, times(wall, 2)), journal);
}

export const SHELL_COMPUTATIONS = [
  computation({
    id: "crush",
    title: "Crush of a pair of bearing shells",
    inputs: {
      gap: input.number("in", "feeler at the parting face, one bolt torqued, the other slacked off", NOT_NEGATIVE),
      housing: input.number("in", "housing bore", ABOVE_ZERO),
    },
    unit: "in",
    formula: "interference on the diameter = gap / pi; stress in a steel back at most E x interference / housing",
    source: `${GEOMETRY}; TM 5-3820-256-24-5, sec. 5, p. 13: crush seats the shell's back in its bore`,
    run: (x) => {
      const { interference, stress } = crush(x.gap, x.housing);
      return { value: interference, parts: { stress_lbf_per_in2: stress } };
    },
  }),
  computation({
    id: "bearing-spread",
    title: "Spread of a bearing shell",
    inputs: {
      free: input.number("in", "width across the open ends, free", ABOVE_ZERO),
      housing: input.number("in", "housing bore", ABOVE_ZERO),
    },
    unit: "in",
    formula: "spread = free width - housing bore; above zero the shell stays put",
    source: "TM 5-3820-256-24-5, sec. 5, p. 13: about .025 in wider free than fitted",
    run: (x) => ({ value: bearingSpread(x.free, x.housing) }),
  }),
  computation({
    id: "housing-bore",
    title: "Housing bore with its cap torqued",
    inputs: {
      readings: input.list(
        "in",
        "diameters with the cap torqued: down the middle, and near each side of the parting",
        2,
        12,
        ABOVE_ZERO,
      ),
      torque: input.number("ft_lbf", "torque the cap was read at", ABOVE_ZERO),
      wall: { ...input.optional("in", "shell's wall, to say the clearance", ABOVE_ZERO) },
      journal: { ...input.optional("in", "journal, to say the clearance", ABOVE_ZERO) },
    },
    unit: "in",
    formula: "bore = mean of the readings; out_of_round = largest - smallest; clearance = bore - 2 wall - journal",
    source: GEOMETRY,
    run: ({ readings, wall, journal }) => {
      const bore = inch(mean(readings));
      return {
        value: bore,
        parts: {
          out_of_round: inches(range(readings)),
          largest: inches(largest(readings)),
          smallest: inches(smallest(readings)),
          ...(wall === undefined || journal === undefined
            ? {}
            : { clearance: inches(tidy(shellClearance(bore, wall, journal))) }),
        },
      };
    },
  }),
];
