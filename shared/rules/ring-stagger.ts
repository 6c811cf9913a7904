// Where a piston's ring gaps stand: never two in line.
import { degree } from "../compute/measure.ts";
import { closestGaps } from "../compute/ring.ts";
import { valueIn, within } from "./figures/pick.ts";
import type { Rule } from "./rule.ts";
import { at, figure, list } from "./text.ts";

/** How much closer than evenly spread two gaps may stand (common practice, no source). */
const SLACK = 30;

export const RING_STAGGER: Rule = {
  id: "ring_stagger",
  title: "Ring gaps spread around the piston",
  subjects: (key) =>
    key.kind === "reading" && key.name === "ring_gap_clock" && key.place.cylinder !== undefined
      ? [{ place: { cylinder: key.place.cylinder }, tag: "" }]
      : [],
  check: ({ place }, context) => {
    const gaps = within(context, "ring_gap_clock", place);
    if (gaps.length < 2) return undefined;
    const positions = gaps.map((logged) => degree(valueIn(logged, "deg")));
    const closest = closestGaps(positions);
    const even = 360 / context.spec.engine.rings.length;
    const least = Math.max(0, even - SLACK);
    const spread = closest >= least;
    return {
      rule: "ring_stagger",
      verdict: spread ? "pass" : "fail",
      place,
      value: closest,
      limit: `${figure(least, "deg")} at least`,
      unit: "deg",
      why: `Ring gaps${at(place)} stand at ${list(positions.map((position) => figure(position, "deg")))}; the closest two are ${figure(closest, "deg")} apart, ${spread ? "at least" : "less than"} ${figure(least, "deg")}.`,
      source: "TM 5-3895-370-14&P: gaps 120 degrees apart; the slack is common practice, no source",
      ...(spread
        ? {}
        : { remedy: `Turn the rings to stand ${figure(even, "deg")} apart, none over the pin or on a thrust face.` }),
      evidence: gaps.flatMap((logged) => logged.evidence),
    };
  },
};
