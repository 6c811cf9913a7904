// Dial readings round the clock: total indicator reading, where the centre stands, what the bar's sag had in it; a flywheel's face.
import { computation, GEOMETRY, inches, input } from "./computation.ts";
import { ABOVE_ZERO } from "./domain.ts";
import { type Degree, degree, type Inch, type InchPerInch, inch, inchPerInch, range, tidy } from "./measure.ts";

/** Largest less smallest of signed dial readings. */
export const totalIndicatorReading = (readings: readonly Inch[]): Inch => range(readings);

export interface Centre {
  readonly offset: Inch;
  /** Clockwise from the first reading; 0 where there is no offset. */
  readonly towards: Degree;
}

/** Centre of the circle that lies closest to readings spread evenly round it: the first harmonic. Source: ISO 12181-1, least squares reference circle. */
export function centreOf(readings: readonly Inch[]): Centre {
  const n = readings.length;
  const sum = (part: (angle: number) => number): number =>
    readings.reduce((total, reading, i) => total + reading * part((2 * Math.PI * i) / n), 0);
  const x = (2 / n) * sum(Math.cos);
  const y = (2 / n) * sum(Math.sin);
  const offset = inch(tidy(Math.hypot(x, y)));
  // Rounding of sines and cosines leaves some 1e-17 where there is nothing.
  if (offset < 1e-12) return { offset: inch(0), towards: degree(0) };
  return { offset, towards: degree(Number((((Math.atan2(y, x) * 180) / Math.PI + 360) % 360).toFixed(6))) };
}

/** Readings less what the bar sags: nothing at the top, all of it at the bottom, half of it at the sides. */
export function withoutSag(readings: readonly Inch[], sag: Inch): Inch[] {
  return readings.map((reading, i) => {
    const part = (sag * (1 - Math.cos((2 * Math.PI * i) / readings.length))) / 2;
    return inch(Number((reading - part).toFixed(12)));
  });
}

/** Face run-out by the inch of the circle it was read on. @throws RangeError when the circle is not above zero */
export function runoutPerInch(tir: Inch, diameter: Inch): InchPerInch {
  if (!(diameter > 0)) throw new RangeError(`Expected a circle above zero, got ${diameter} in`);
  return inchPerInch(tidy(tir / diameter));
}

export const RUNOUT_COMPUTATIONS = [
  computation({
    id: "clock-runout",
    title: "Run-out from dial readings round the clock",
    inputs: {
      readings: input.list("in", "signed dial readings, evenly round the clock, the first at the top", 3, 36),
      sag: input.optional(
        "in",
        "what the same bar reads at the bottom on a stiff mandrel, zeroed at the top; below zero as a rule",
      ),
    },
    unit: "in",
    formula:
      "TIR = largest - smallest; centre offset = first harmonic of the readings; sag has (1 - cos angle) / 2 of itself in each",
    source: "ISO 12181-1:2011 (least squares reference circle); sag at top, sides and bottom: common practice of shaft alignment",
    run: ({ readings, sag }) => {
      const clean = sag === undefined ? readings : withoutSag(readings, sag);
      const { offset, towards } = centreOf(clean);
      return {
        value: totalIndicatorReading(readings),
        parts: {
          centre_offset: inches(offset),
          towards_deg: towards,
          ...(sag === undefined ? {} : { runout_less_sag: inches(totalIndicatorReading(clean)) }),
        },
      };
    },
  }),
  computation({
    id: "flywheel-runout",
    title: "Run-out of a flywheel's face",
    inputs: {
      readings: input.list("in", "signed dial readings round the face, the crank held against its thrust", 3, 36),
      diameter: input.number("in", "diameter of the circle the dial stood on", ABOVE_ZERO),
    },
    unit: "in",
    formula: "run-out = largest - smallest; per inch = run-out / diameter of the circle",
    source: GEOMETRY,
    run: ({ readings, diameter }) => {
      const tir = totalIndicatorReading(readings);
      return { value: tir, parts: { in_per_in: runoutPerInch(tir, diameter) } };
    },
  }),
];
