// Coil springs from their wire: rate, solid length, and what is left between the coils at full lift.
import { computation, inches, input } from "./computation.ts";
import { ABOVE_ZERO, NOT_NEGATIVE } from "./domain.ts";
import { type Inch, inch, type Measure, minus, tidy, times } from "./measure.ts";

const SHIGLEY = "Shigley's Mechanical Engineering Design, 9th ed.";

/** Rate of a helical spring: d^4 G / (8 D^3 Na), D the mean coil. Source: Shigley, eq. 10-9. @throws RangeError when the coil is no wider than two wires */
export function wireRate(wire: Inch, outside: Inch, active: number, modulus: Measure<"lbf_per_in2">): Measure<"lbf_per_in"> {
  if (!(outside > 2 * wire))
    throw new RangeError(`Expected an outside diameter above two wires of ${wire} in, got ${outside} in`);
  const mean = outside - wire;
  return tidy(((wire ** 4 * modulus) / (8 * mean ** 3 * active)) as Measure<"lbf_per_in">);
}

/** Wires that stand on each other when the coils bind, by how the ends are made. Source: Shigley, Table 10-1. */
const ENDS = { plain: 1, plain_ground: 0, squared: 1, squared_ground: 0 } as const;
export type SpringEnds = keyof typeof ENDS;
export const SPRING_ENDS = Object.keys(ENDS) as readonly SpringEnds[];

/** Length at which every coil touches the next. */
export function solidLength(wire: Inch, coils: number, ends: SpringEnds): Inch {
  return inch(tidy(wire * (coils + ENDS[ends])));
}

/** What is left before the coils bind: installed length less lift less solid length. */
export function coilBindClearance(installed: Inch, lift: Inch, solid: Inch): Inch {
  return minus(minus(installed, lift), solid);
}

export const SPRING_COMPUTATIONS = [
  computation({
    id: "spring-rate",
    title: "Rate of a coil spring from its wire",
    inputs: {
      wire: input.number("in", "wire diameter", ABOVE_ZERO),
      "outside-diameter": input.number("in", "coil over the outside", ABOVE_ZERO),
      active: input.number("ratio", "coils that move", ABOVE_ZERO),
      modulus: input.number("lbf_per_in2", "shear modulus of the wire, such as 11.5Mpsi for hard-drawn steel", ABOVE_ZERO),
    },
    unit: "lbf_per_in",
    formula: "rate = d^4 G / (8 D^3 N); D = outside diameter - d",
    source: `${SHIGLEY}, eq. 10-9`,
    run: (x) => ({ value: wireRate(x.wire, x["outside-diameter"], x.active, x.modulus) }),
  }),
  computation({
    id: "coil-bind",
    title: "Length at which a spring's coils bind",
    inputs: {
      wire: input.number("in", "wire diameter", ABOVE_ZERO),
      coils: input.number("ratio", "all coils, end coils with them", ABOVE_ZERO),
      ends: input.optionalText("how the ends are made; squared_ground when left out", SPRING_ENDS),
      installed: input.optional("in", "installed length, valve shut", ABOVE_ZERO),
      lift: input.optional("in", "valve lift", NOT_NEGATIVE),
    },
    unit: "in",
    formula:
      "solid length = wire x coils, one wire more where the ends are not ground; clearance = installed - lift - solid length",
    source: `${SHIGLEY}, Table 10-1`,
    run: (x) => {
      const solid = solidLength(x.wire, x.coils, (x.ends ?? "squared_ground") as SpringEnds);
      if (x.installed === undefined || x.lift === undefined) return { value: solid };
      const clearance = coilBindClearance(x.installed, x.lift, solid);
      const gaps = Math.max(1, x.coils - 1);
      return {
        value: solid,
        parts: {
          clearance: inches(clearance),
          clearance_a_coil: inches(tidy(times(clearance, 1 / gaps))),
          binds: clearance <= 0,
        },
      };
    },
  }),
];
