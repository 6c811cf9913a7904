// Honing: the angle of the cross-hatch from the hone's speeds, and the stroke speed for a wanted angle.
import { computation, input } from "./computation.ts";
import { ABOVE_ZERO } from "./domain.ts";
import { type Degree, degree, type Inch, inchPerMinute, type Measure, tidy } from "./measure.ts";

const surfaceSpeed = (bore: Inch, speed: Measure<"rpm">): number => Math.PI * bore * speed;

/** Included angle of the hatch: 2 atan(axial speed / surface speed). */
export function crossHatchAngle(bore: Inch, speed: Measure<"rpm">, stroke: Measure<"in_per_min">): Degree {
  const around = surfaceSpeed(bore, speed);
  if (!(around > 0)) throw new RangeError(`Expected bore and speed above zero, got ${bore} in and ${speed} rev/min`);
  return degree(tidy((2 * Math.atan(stroke / around) * 180) / Math.PI));
}

/** Axial speed for a wanted included angle. */
export function strokeSpeedFor(bore: Inch, speed: Measure<"rpm">, angle: Degree): Measure<"in_per_min"> {
  if (!(angle > 0 && angle < 180)) throw new RangeError(`Expected an angle between 0 and 180, got ${angle}`);
  return inchPerMinute(tidy(surfaceSpeed(bore, speed) * Math.tan((angle * Math.PI) / 360)));
}

export const HONE_COMPUTATIONS = [
  computation({
    id: "cross-hatch",
    title: "Cross-hatch angle",
    inputs: {
      bore: input.number("in", "bore", ABOVE_ZERO),
      rpm: input.number("rpm", "hone's speed", ABOVE_ZERO),
      "stroke-speed": input.number("in_per_min", "speed along the bore", ABOVE_ZERO),
    },
    unit: "deg",
    formula: "included angle = 2 atan(stroke speed / (pi bore rpm))",
    source: "kinematics; 45 degrees included is the usual aim of ring makers",
    run: (x) => ({ value: crossHatchAngle(x.bore, x.rpm, x["stroke-speed"]) }),
  }),
  computation({
    id: "stroke-speed",
    title: "Stroke speed for a cross-hatch",
    inputs: {
      bore: input.number("in", "bore", ABOVE_ZERO),
      rpm: input.number("rpm", "hone's speed", ABOVE_ZERO),
      angle: input.number("deg", "included angle wanted", { above: 0, below: 180 }),
    },
    unit: "in_per_min",
    formula: "stroke speed = pi bore rpm tan(angle / 2)",
    source: "kinematics",
    run: (x) => ({ value: strokeSpeedFor(x.bore, x.rpm, x.angle) }),
  }),
];
