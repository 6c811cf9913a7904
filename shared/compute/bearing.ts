// Bearing clearance from sizes, from plastic gauge and from shims; what to take out of or add to each side; end float.
import Big from "big.js";
import { COMMON_PRACTICE, computation, GEOMETRY, inches, input } from "./computation.ts";
import { ABOVE_ZERO, NOT_NEGATIVE } from "./domain.ts";
import { type Inch, type InchPerInch, inch, minus, plus, times } from "./measure.ts";

/** Bore less journal. */
export function bearingClearance(bore: Inch, journal: Inch): Inch {
  return minus(bore, journal);
}

/** Clearance after removing `each` from BOTH sides: the cap comes down by that much, once, not twice. */
export function clearanceAfterShims(clearance: Inch, each: Inch): Inch {
  return minus(clearance, each);
}

export interface ShimChange {
  /** To take out of each side; negative to add. */
  readonly each: Inch;
  readonly clearance: Inch;
}

/**
 * The fewest steps of `lamination`, the same on both sides, that bring the clearance inside low..high; undefined when none does.
 * Equal sides only: one side alone cocks the cap (common practice, no source).
 */
export function shimChange(clearance: Inch, low: Inch, high: Inch, lamination: Inch): ShimChange | undefined {
  if (!(lamination > 0)) throw new RangeError(`Expected a lamination above zero, got ${lamination}`);
  if (clearance >= low && clearance <= high) return { each: inch(0), clearance };
  const out = clearance > high ? minus(clearance, high) : minus(clearance, low);
  // The first step that reaches the nearer limit; when it passes the farther one too, no other lands between them.
  const steps = new Big(out).abs().div(lamination).round(0, Big.roundUp).toNumber();
  const each = times(lamination, Math.sign(out) * steps);
  const after = minus(clearance, each);
  return after >= low && after <= high ? { each, clearance: after } : undefined;
}

/** Plastic gauge read at both ends: the mean is the clearance, the difference its taper. */
export function plasticGauge(front: Inch, rear: Inch): { readonly clearance: Inch; readonly taper: Inch } {
  return { clearance: times(plus(front, rear), 0.5), taper: Math.abs(minus(front, rear)) as Inch };
}

/** Plastic gauge grades by range (.001 to .003 and .002 to .006 as sold; .004 to .009 from memory). */
export const PLASTIC_GRADES = [
  { id: "fine", low: inch(0.001), high: inch(0.003) },
  { id: "middle", low: inch(0.002), high: inch(0.006) },
  { id: "coarse", low: inch(0.004), high: inch(0.009) },
] as const;

/** Shim to take out of the thrust for a wanted end float; negative to add. */
export function endFloatShim(float: Inch, target: Inch): Inch {
  return minus(float, target);
}

/** Rule of thumb for a running bearing: so much per inch of journal. */
export function clearanceGuide(journal: Inch, perInch: InchPerInch): Inch {
  return times(journal, perInch);
}

export const BEARING_COMPUTATIONS = [
  computation({
    id: "bearing-clearance",
    title: "Bearing clearance from sizes",
    inputs: { bore: input.number("in", "bearing bore", ABOVE_ZERO), journal: input.number("in", "journal diameter", ABOVE_ZERO) },
    unit: "in",
    formula: "clearance = bore - journal",
    source: GEOMETRY,
    run: (x) => ({ value: bearingClearance(x.bore, x.journal) }),
  }),
  computation({
    id: "clearance-guide",
    title: "Clearance by the inch of journal",
    inputs: {
      journal: input.number("in", "journal diameter", ABOVE_ZERO),
      "per-inch": input.number("in_per_in", "such as 0.001", NOT_NEGATIVE),
    },
    unit: "in",
    formula: "clearance = journal x per-inch",
    source: COMMON_PRACTICE,
    run: (x) => ({ value: clearanceGuide(x.journal, x["per-inch"]) }),
  }),
  computation({
    id: "plastic-gauge",
    title: "Clearance from plastic gauge",
    inputs: {
      front: input.number("in", "width scale at the front", NOT_NEGATIVE),
      rear: input.number("in", "width scale at the rear", NOT_NEGATIVE),
    },
    unit: "in",
    formula: "clearance = (front + rear) / 2; taper = |front - rear|",
    source: COMMON_PRACTICE,
    run: (x) => {
      const { clearance, taper } = plasticGauge(x.front, x.rear);
      const grades = PLASTIC_GRADES.filter((grade) => x.front >= grade.low && x.front <= grade.high);
      return { value: clearance, parts: { taper: inches(taper), grades_that_reach: grades.map((grade) => grade.id).join(", ") } };
    },
  }),
  computation({
    id: "shim-clearance",
    title: "Clearance after shims come out",
    inputs: {
      clearance: input.number("in", "clearance now"),
      "remove-each-side": input.number("in", "taken from each of the two sides; negative when added"),
    },
    unit: "in",
    formula: "clearance after = clearance - removed from each side (the cap comes down once, not twice)",
    source: GEOMETRY,
    run: (x) => ({ value: clearanceAfterShims(x.clearance, x["remove-each-side"]) }),
  }),
  computation({
    id: "shim-removal",
    title: "Shim to take from each side",
    inputs: {
      clearance: input.number("in", "clearance now"),
      low: input.number("in", "least clearance wanted", NOT_NEGATIVE),
      high: input.number("in", "most clearance wanted", NOT_NEGATIVE),
      lamination: input.number("in", "thinnest lamination", ABOVE_ZERO),
    },
    unit: "in",
    formula: "fewest laminations n, equal on both sides, with low <= clearance - n lamination <= high",
    source: GEOMETRY,
    run: (x) => {
      const change = shimChange(x.clearance, x.low, x.high, x.lamination);
      if (change === undefined) {
        throw new RangeError(`Expected a lamination that can land between ${x.low} and ${x.high} in, got ${x.lamination} in`);
      }
      return { value: change.each, parts: { clearance_after: inches(change.clearance) } };
    },
  }),
  computation({
    id: "end-float-shim",
    title: "Shim for the crank's end float",
    inputs: {
      float: input.number("in", "end float now", NOT_NEGATIVE),
      target: input.number("in", "end float wanted", NOT_NEGATIVE),
    },
    unit: "in",
    formula: "shim to take out = float - target; negative to add",
    source: "TM 5-3820-205-35-1: end float adjusted by thrust shims",
    run: (x) => ({ value: endFloatShim(x.float, x.target) }),
  }),
];
