// ISO tolerance grades IT01 to IT18 for nominal sizes up to 500 mm, from the standard's table.
import { computation, input } from "./computation.ts";
import { ABOVE_ZERO } from "./domain.ts";
import { type Micrometre, type Millimetre, micrometre, tidy } from "./measure.ts";

interface GradeRow {
  /** Sizes above the row before and up to and including this, mm. */
  readonly upTo: number;
  /** IT1 to IT18, micrometres. */
  readonly grades: readonly number[];
}

const row = (upTo: number, ...grades: number[]): GradeRow => ({ upTo, grades });

/** ISO 286-1:2010, Table 1. */
export const GRADES: readonly GradeRow[] = [
  row(3, 0.8, 1.2, 2, 3, 4, 6, 10, 14, 25, 40, 60, 100, 140, 250, 400, 600, 1000, 1400),
  row(6, 1, 1.5, 2.5, 4, 5, 8, 12, 18, 30, 48, 75, 120, 180, 300, 480, 750, 1200, 1800),
  row(10, 1, 1.5, 2.5, 4, 6, 9, 15, 22, 36, 58, 90, 150, 220, 360, 580, 900, 1500, 2200),
  row(18, 1.2, 2, 3, 5, 8, 11, 18, 27, 43, 70, 110, 180, 270, 430, 700, 1100, 1800, 2700),
  row(30, 1.5, 2.5, 4, 6, 9, 13, 21, 33, 52, 84, 130, 210, 330, 520, 840, 1300, 2100, 3300),
  row(50, 1.5, 2.5, 4, 7, 11, 16, 25, 39, 62, 100, 160, 250, 390, 620, 1000, 1600, 2500, 3900),
  row(80, 2, 3, 5, 8, 13, 19, 30, 46, 74, 120, 190, 300, 460, 740, 1200, 1900, 3000, 4600),
  row(120, 2.5, 4, 6, 10, 15, 22, 35, 54, 87, 140, 220, 350, 540, 870, 1400, 2200, 3500, 5400),
  row(180, 3.5, 5, 8, 12, 18, 25, 40, 63, 100, 160, 250, 400, 630, 1000, 1600, 2500, 4000, 6300),
  row(250, 4.5, 7, 10, 14, 20, 29, 46, 72, 115, 185, 290, 460, 720, 1150, 1850, 2900, 4600, 7200),
  row(315, 6, 8, 12, 16, 23, 32, 52, 81, 130, 210, 320, 520, 810, 1300, 2100, 3200, 5200, 8100),
  row(400, 7, 9, 13, 18, 25, 36, 57, 89, 140, 230, 360, 570, 890, 1400, 2300, 3600, 5700, 8900),
  row(500, 8, 10, 15, 20, 27, 40, 63, 97, 155, 250, 400, 630, 970, 1550, 2500, 4000, 6300, 9700),
];

/** IT01 and IT0 by the rows of `GRADES`, micrometres: grades of gauges, finer than IT1. ISO 286-1:2010, Table 1, from memory. */
const FINEST: readonly (readonly [number, number])[] = [
  [0.3, 0.5],
  [0.4, 0.6],
  [0.4, 0.6],
  [0.5, 0.8],
  [0.6, 1],
  [0.6, 1],
  [0.8, 1.2],
  [1, 1.5],
  [1.2, 2],
  [2, 3],
  [2.5, 4],
  [3, 5],
  [4, 6],
];

/** A grade by its name: IT01 and IT0 are two grades below IT1, not spellings of it. */
export type Grade = "01" | number;

/** Tolerance of a grade at a nominal size. @throws RangeError outside 0 to 500 mm or IT01 to IT18 */
export function toleranceGrade(size: Millimetre, grade: Grade): Micrometre {
  if (!(size > 0 && size <= 500)) throw new RangeError(`Expected a size above 0 and up to 500 mm, got ${size} mm`);
  const at = GRADES.findIndex((candidate) => size <= candidate.upTo);
  const value = grade === "01" ? FINEST[at]?.[0] : grade === 0 ? FINEST[at]?.[1] : GRADES[at]?.grades[grade - 1];
  if (value === undefined) throw new RangeError(`Expected a grade from IT01 to IT18, got IT${grade}`);
  return micrometre(value);
}

export const GRADE_COMPUTATIONS = [
  computation({
    id: "tolerance-grade",
    title: "ISO tolerance grade",
    inputs: {
      size: { ...input.number("mm", "nominal size", ABOVE_ZERO), exact: true as const },
      grade: input.text("IT01, IT0, IT1 to IT18, such as IT7"),
    },
    unit: "um",
    formula: "table of standard tolerance grades by nominal size",
    source: "ISO 286-1:2010, Table 1",
    run: (x) => {
      const name = /^(?:IT)?(01|0|[1-9]\d?)$/i.exec(x.grade)?.[1];
      if (name === undefined) throw new RangeError(`Expected a grade such as IT7, got "${x.grade}"`);
      const tolerance = toleranceGrade(x.size, name === "01" ? name : Number(name));
      return { value: tolerance, parts: { in: tidy(tolerance / 25400) } };
    },
  }),
];
