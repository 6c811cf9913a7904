// Connecting rods: bend and twist per inch, and length against a master.
import { computation, inches, input } from "./computation.ts";
import { ABOVE_ZERO } from "./domain.ts";
import { type Inch, type InchPerInch, inchPerInch, minus, plus, tidy, times } from "./measure.ts";

/** Bend or twist per inch of mandrel. @throws RangeError when the length is not above zero */
export function perInch(deviation: Inch, length: Inch): InchPerInch {
  if (!(length > 0)) throw new RangeError(`Expected a mandrel length above zero, got ${length}`);
  return inchPerInch(tidy(Math.abs(deviation) / length));
}

/** Both ends of the mandrel read against a master: mean is the length's deviation, difference the bend. */
export function rodFromDials(left: Inch, right: Inch): { readonly length: Inch; readonly bend: Inch } {
  return { length: times(plus(left, right), 0.5), bend: Math.abs(minus(right, left)) as Inch };
}

export const ROD_COMPUTATIONS = [
  computation({
    id: "rod-bend",
    title: "Rod bend or twist per inch",
    inputs: {
      deviation: input.number("in", "bend or twist read over the mandrel"),
      length: input.number("in", "length it was read over", ABOVE_ZERO),
    },
    unit: "in_per_in",
    formula: "per inch = |deviation| / length",
    source: "TM 9-2815-220-24, WP 0143: limits given per inch",
    run: (x) => ({ value: perInch(x.deviation, x.length) }),
  }),
  computation({
    id: "rod-dials",
    title: "Rod length and bend from two dials",
    inputs: {
      left: input.number("in", "left dial against the master"),
      right: input.number("in", "right dial against the master"),
    },
    unit: "in",
    formula: "length deviation = (right + left) / 2; bend = |right - left|",
    source: "TM 9-2815-226-34-1, rod length, bend and twist",
    run: (x) => {
      const { length, bend } = rodFromDials(x.left, x.right);
      return { value: length, parts: { bend: inches(bend) } };
    },
  }),
];
