// One figure printed in two units: whether they can be the same figure, and plain conversion.
import { computation, input } from "./computation.ts";
import { resolutionUncertainty } from "./conformance.ts";
import { tidy } from "./measure.ts";
import { typedMeasure } from "./measure-text.ts";
import { type ComputeUnit, convertDifference, convertMeasure, dimensionOf, unitNamed } from "./units.ts";

export { lastDigitStep } from "./measure-text.ts";

export interface Stated {
  readonly value: number;
  readonly unit: ComputeUnit;
  /** Step of the last digit that was stated: .001 for "5.629". */
  readonly step: number;
}

export interface PairCheck {
  /** The first figure in the second one's unit. */
  readonly converted: number;
  readonly difference: number;
  /** What rounding of both can explain. */
  readonly allowed: number;
  readonly agrees: boolean;
}

/** Whether two statements agree within the rounding of their last digits. @throws RangeError when dimensions differ */
export function checkPair(first: Stated, second: Stated): PairCheck {
  const converted = tidy(convertMeasure(first.value, first.unit, second.unit));
  const difference = tidy(Math.abs(converted - second.value));
  // A figure rounded to a whole step of each is off by half of it at most; manuals round both and often to the nearest whole.
  const allowed = tidy(convertDifference(first.step, first.unit, second.unit) / 2 + second.step / 2);
  return { converted, difference, allowed, agrees: difference <= allowed * (1 + 1e-9) };
}

function stated(text: string, name: string): Stated {
  const typed = typedMeasure(text);
  if (typeof typed === "string" || typed.unit === undefined) {
    throw new RangeError(`Expected a figure with its unit for ${name}, got "${text}"`);
  }
  return { ...typed, unit: typed.unit };
}

export const UNIT_COMPUTATIONS = [
  computation({
    id: "convert",
    title: "Another unit",
    inputs: { value: input.text("figure with its unit, such as 35ft_lbf"), to: input.text("unit wanted") },
    unit: "any",
    formula: "value x factor of its unit / factor of the unit wanted; rounded to the digits that were given",
    source: "NIST SP 811 (2008), App. B.8; 1 in = 25.4 mm exactly",
    run: (x) => {
      const from = stated(x.value, "value");
      const to = unitNamed(x.to);
      if (to === undefined) throw new RangeError(`Expected a known unit for to, got "${x.to}"`);
      if (dimensionOf(from.unit) !== dimensionOf(to)) {
        throw new RangeError(`Expected a unit of ${dimensionOf(from.unit)} for to, got "${x.to}"`);
      }
      return {
        value: tidy(convertMeasure(from.value, from.unit, to)),
        unit: to,
        rounding: resolutionUncertainty(Math.abs(convertDifference(from.step, from.unit, to))),
      };
    },
  }),
  computation({
    id: "unit-pair",
    title: "Whether two units say the same figure",
    inputs: {
      first: input.text("figure with its unit, such as 2.216ft_lbf"),
      second: input.text("the same in another unit, such as 5.629N_m"),
    },
    unit: "any",
    formula: "agrees when |first converted - second| <= half a last digit of each",
    source: "NIST SP 811 (2008), App. B.8 and B.7 (rounding)",
    run: (x) => {
      const second = stated(x.second, "second");
      return { value: { ...checkPair(stated(x.first, "first"), second) }, unit: second.unit };
    },
  }),
];
