// Where a piston's ring gaps stand: never two in line, none over the pin or on a thrust face.
import { type Degree, degree } from "../compute/measure.ts";
import { closestGaps } from "../compute/ring.ts";
import type { Engine } from "../spec/spec.ts";
import { valueIn, within } from "./figures/pick.ts";
import type { Rule } from "./rule.ts";
import { at, figure, list } from "./text.ts";

/** How much closer than evenly spread two gaps may stand (common practice, no source). */
const SLACK = 30;
/** How near the pin's ends or the middle of a thrust face a gap may stand (common practice, no source). */
const CLEAR = 10;

/** Places a gap must not stand at, from where 0 of the clock is: the pin lies along the crank, the thrust faces across it. */
const FORBIDDEN: Readonly<Record<NonNullable<Engine["ringClock"]>, readonly (readonly [number, string])[]>> = {
  front: [
    [0, "over the pin"],
    [90, "on a thrust face"],
    [180, "over the pin"],
    [270, "on a thrust face"],
  ],
  thrust: [
    [0, "on a thrust face"],
    [90, "over the pin"],
    [180, "on a thrust face"],
    [270, "over the pin"],
  ],
};

/** What is wrong with where single gaps stand: "0\u00b0 over the pin". */
const badlyPlaced = (positions: readonly Degree[], clock: NonNullable<Engine["ringClock"]>): string[] =>
  positions.flatMap((position) =>
    FORBIDDEN[clock]
      .filter(([where]) => closestGaps([position, degree(where)]) < CLEAR)
      .map(([, what]) => `${figure(position, "deg")} is ${what}`),
  );

export const RING_STAGGER: Rule = {
  id: "ring_stagger",
  title: "Ring gaps spread around the piston, off the pin and the thrust faces",
  subjects: (key) =>
    key.kind === "reading" && key.name === "ring_gap_clock" && key.place.cylinder !== undefined
      ? [{ place: { cylinder: key.place.cylinder }, tag: "" }]
      : [],
  check: ({ place }, context) => {
    const gaps = within(context, "ring_gap_clock", place);
    if (gaps.length < 2) return undefined;
    const { rings, ringClock } = context.spec.engine;
    const positions = gaps.map((logged) => degree(valueIn(logged, "deg")));
    const closest = closestGaps(positions);
    const even = 360 / rings.length;
    const least = Math.max(0, even - SLACK);
    const spread = closest >= least;
    const bad = ringClock === undefined ? [] : badlyPlaced(positions, ringClock);
    const clear =
      ringClock === undefined
        ? "; where 0 of the clock stands is not on the sheet, so pin and thrust faces cannot be checked"
        : `; ${bad.length === 0 ? `none within ${figure(CLEAR, "deg")} of the pin or of a thrust face` : list(bad)}`;
    const good = spread && bad.length === 0;
    return {
      rule: "ring_stagger",
      verdict: good ? (ringClock === undefined ? "unknown" : "pass") : "fail",
      place,
      value: closest,
      limit: `${figure(least, "deg")} at least`,
      unit: "deg",
      why: `Ring gaps${at(place)} stand at ${list(positions.map((position) => figure(position, "deg")))}; the closest two are ${figure(closest, "deg")} apart, ${spread ? "at least" : "less than"} ${figure(least, "deg")}${clear}.`,
      source: "TM 5-3895-370-14&P: gaps 120 degrees apart; slack and clear space are common practice, no source",
      ...(good
        ? ringClock === undefined
          ? { remedy: "Put on the sheet where 0 of the ring clock stands: over the pin's front end, or on a thrust face." }
          : {}
        : { remedy: `Turn the rings to stand ${figure(even, "deg")} apart, none over the pin or on a thrust face.` }),
      evidence: gaps.flatMap((logged) => logged.evidence),
    };
  },
};
