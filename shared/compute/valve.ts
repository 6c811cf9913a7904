// Valves: spring force at a length, seat width, interference angle, curtain area, lift after lash.
import { COMMON_PRACTICE, computation, GEOMETRY, input } from "./computation.ts";
import { ABOVE_ZERO, type Domain, NOT_NEGATIVE } from "./domain.ts";
import { type Degree, type Inch, type Measure, minus, type PoundForce, poundForce, type SquareInch, tidy } from "./measure.ts";

export interface SpringPoint {
  readonly force: PoundForce;
  readonly length: Inch;
}

/** Rate of a coil spring from two points. @throws RangeError when both have one length */
export function springRate(a: SpringPoint, b: SpringPoint): Measure<"lbf_per_in"> {
  const travel = minus(b.length, a.length);
  if (travel === 0) throw new RangeError(`Expected two different lengths, got ${a.length} in twice`);
  return tidy((minus(a.force, b.force) / travel) as Measure<"lbf_per_in">);
}

/** Force at a length, the spring being linear between its points. */
export function springForceAt(length: Inch, a: SpringPoint, b: SpringPoint): PoundForce {
  return poundForce(tidy(a.force + springRate(a, b) * (a.length - length)));
}

/** Length at which a spring between two points pushes no more. */
export function freeLength(a: SpringPoint, b: SpringPoint): Inch {
  return tidy((a.length + a.force / springRate(a, b)) as Inch);
}

/** Width of a seat along its face, from its outer and inner diameter and its angle to the head's plane. @throws RangeError when there is none */
export function seatWidth(outer: Inch, inner: Inch, angle: Degree): Inch {
  if (!(outer > inner)) throw new RangeError(`Expected an outer diameter above the inner of ${inner} in, got ${outer} in`);
  return tidy(((outer - inner) / 2 / Math.cos((angle * Math.PI) / 180)) as Inch);
}

/** Curtain area round an open valve: pi x head diameter x lift. It equals the port at a lift of a quarter diameter. */
export function curtainArea(diameter: Inch, lift: Inch): SquareInch {
  return tidy((Math.PI * diameter * lift) as SquareInch);
}

const SEAT: Domain = { above: 0, below: 90 };

export const VALVE_COMPUTATIONS = [
  computation({
    id: "spring-force",
    title: "Spring force at a length",
    inputs: {
      length: input.number("in", "length asked for", ABOVE_ZERO),
      "force-1": input.number("lbf", "force at the first length", NOT_NEGATIVE),
      "length-1": input.number("in", "first length", ABOVE_ZERO),
      "force-2": input.number("lbf", "force at the second length", NOT_NEGATIVE),
      "length-2": input.number("in", "second length", ABOVE_ZERO),
    },
    unit: "lbf",
    formula: "force = force1 + rate (length1 - length); rate = (force1 - force2) / (length2 - length1)",
    source: "Hooke's law; Shigley's Mechanical Engineering Design, ch. 10",
    run: (x) => {
      const a = { force: x["force-1"], length: x["length-1"] };
      const b = { force: x["force-2"], length: x["length-2"] };
      const rate = springRate(a, b);
      if (!(rate > 0)) throw new RangeError(`Expected more force at the shorter length, got a rate of ${rate} lbf/in`);
      const free = freeLength(a, b);
      // To the nanometre: the free length is itself worked out.
      if (minus(x.length, free) > 1e-9)
        throw new RangeError(`Expected a length up to the free length of ${free} in, got ${x.length} in`);
      return { value: Math.max(0, springForceAt(x.length, a, b)), parts: { rate_lbf_per_in: rate } };
    },
  }),
  computation({
    id: "seat-width",
    title: "Width of a valve seat",
    inputs: {
      outer: input.number("in", "outer diameter of the contact", ABOVE_ZERO),
      inner: input.number("in", "inner diameter of the contact", ABOVE_ZERO),
      angle: input.number("deg", "seat angle from the head's plane", { least: 0, below: 90 }),
    },
    unit: "in",
    formula: "width = (outer - inner) / (2 cos(angle))",
    source: GEOMETRY,
    run: (x) => ({ value: seatWidth(x.outer, x.inner, x.angle) }),
  }),
  computation({
    id: "interference-angle",
    title: "Interference angle of valve and seat",
    inputs: { seat: input.number("deg", "seat angle", SEAT), face: input.number("deg", "valve face angle", SEAT) },
    unit: "deg",
    formula: "interference = seat - face",
    source: "TM 5-6115-400-35, p. 95: seat about one degree steeper than the valve",
    run: (x) => ({ value: minus(x.seat, x.face) }),
  }),
  computation({
    id: "curtain-area",
    title: "Curtain area of an open valve",
    inputs: {
      diameter: input.number("in", "valve head diameter", ABOVE_ZERO),
      lift: input.number("in", "valve lift", NOT_NEGATIVE),
    },
    unit: "in2",
    formula: "area = pi diameter lift",
    source: "Heywood, Internal Combustion Engine Fundamentals, ch. 6 (the area at a quarter diameter's lift is that of the port)",
    run: (x) => ({ value: curtainArea(x.diameter, x.lift) }),
  }),
  computation({
    id: "valve-lift",
    title: "Valve lift after lash",
    inputs: {
      lobe: input.number("in", "lobe lift", NOT_NEGATIVE),
      lash: input.number("in", "lash", NOT_NEGATIVE),
      rocker: input.optional("ratio", "rocker ratio; 1 for valves worked direct", ABOVE_ZERO),
    },
    unit: "in",
    formula: "lift = lobe x rocker ratio - lash; 0 where the lash is not taken up",
    source: COMMON_PRACTICE,
    run: (x) => ({ value: tidy(Math.max(0, x.lobe * (x.rocker ?? 1) - x.lash)) }),
  }),
];
