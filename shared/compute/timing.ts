// What happens at which angle of the crank: valves opening and closing, the piston's place, throws out of phase, points.
import { COMMON_PRACTICE, computation, GEOMETRY, inches, input, Refusal } from "./computation.ts";
import { ABOVE_ZERO, COUNT, FROM_DEAD_CENTRE, NOT_NEGATIVE } from "./domain.ts";
import { type Degree, degree, type Inch, inch, minus, plus, range, smallest, tidy } from "./measure.ts";

export interface ValvePeriod {
  readonly duration: Degree;
  /** Intake: after top dead centre; exhaust: before it. */
  readonly lobeCentre: Degree;
}

/** How long a valve is open and where the middle of that lies; `nearTop` is the event at top dead centre, `nearBottom` that at bottom. */
export function valvePeriod(nearTop: Degree, nearBottom: Degree): ValvePeriod {
  const duration = plus(nearTop, degree(180), nearBottom);
  return { duration, lobeCentre: tidy(minus((duration / 2) as Degree, nearTop)) };
}

/** Degrees that both valves are open round top dead centre; below zero when neither is. */
export const valveOverlap = (intakeOpens: Degree, exhaustCloses: Degree): Degree => plus(intakeOpens, exhaustCloses);

/** Distance of the piston below top dead centre. Source: Heywood, Internal Combustion Engine Fundamentals, eq. 2.5. @throws RangeError when the rod is no longer than the throw */
export function pistonTravel(throwLength: Inch, rod: Inch, angle: Degree): Inch {
  if (!(rod > throwLength)) throw new RangeError(`Expected a rod longer than the throw of ${throwLength} in, got ${rod} in`);
  const turned = (angle * Math.PI) / 180;
  const across = throwLength * Math.sin(turned);
  return inch(tidy(throwLength + rod - throwLength * Math.cos(turned) - Math.sqrt(rod * rod - across * across)));
}

/** Each throw's angle less the one it was made for, between -180 and 180. */
export function phaseErrors(angles: readonly Degree[], nominal: readonly Degree[]): Degree[] {
  return angles.map((angle, i) => {
    const off = minus(angle, nominal[i] ?? degree(0)) % 360;
    return degree(tidy(off > 180 ? off - 360 : off < -180 ? off + 360 : off));
  });
}

function sameCount(lists: Readonly<Record<string, readonly unknown[]>>): void {
  const counts = Object.values(lists).map((list) => list.length);
  if (new Set(counts).size > 1) {
    throw new Refusal(
      "bad_count",
      `Expected as many values for each of ${Object.keys(lists).join(", ")}, got ${counts.join(", ")}`,
    );
  }
}

export const TIMING_COMPUTATIONS = [
  computation({
    id: "valve-timing",
    title: "Valve timing",
    inputs: {
      "intake-opens": input.optional("deg", "before top dead centre; after it is negative", FROM_DEAD_CENTRE),
      "intake-closes": input.optional("deg", "after bottom dead centre; before it is negative", FROM_DEAD_CENTRE),
      "exhaust-opens": input.optional("deg", "before bottom dead centre; after it is negative", FROM_DEAD_CENTRE),
      "exhaust-closes": input.optional("deg", "after top dead centre; before it is negative", FROM_DEAD_CENTRE),
      lash: input.optional("in", "lash the angles were read at: they mean nothing without it", NOT_NEGATIVE),
    },
    unit: "deg",
    formula:
      "overlap = intake opens + exhaust closes; duration = opens + 180 + closes; intake lobe centre = duration / 2 - opens (after top), exhaust = duration / 2 - closes (before it); separation = half their sum",
    source: `${GEOMETRY}; crank degrees, but cam degrees for the separation`,
    run: (x) => {
      const { lash } = x;
      const [opens, closes] = [x["intake-opens"], x["exhaust-closes"]];
      const intake = opens === undefined || x["intake-closes"] === undefined ? undefined : valvePeriod(opens, x["intake-closes"]);
      const exhaust =
        closes === undefined || x["exhaust-opens"] === undefined ? undefined : valvePeriod(closes, x["exhaust-opens"]);
      const parts = {
        ...(intake === undefined ? {} : { intake_duration: intake.duration, intake_lobe_centre: intake.lobeCentre }),
        ...(exhaust === undefined ? {} : { exhaust_duration: exhaust.duration, exhaust_lobe_centre: exhaust.lobeCentre }),
        ...(intake === undefined || exhaust === undefined
          ? {}
          : { lobe_separation: tidy((intake.lobeCentre + exhaust.lobeCentre) / 2) }),
        ...(lash === undefined ? {} : { lash: inches(lash) }),
      };
      if (opens !== undefined && closes !== undefined) return { value: valveOverlap(opens, closes), parts };
      if (intake !== undefined || exhaust !== undefined) return { value: parts };
      throw new Refusal(
        "missing_input",
        "Expected intake-opens with exhaust-closes, or a valve's opens with its closes, got neither",
      );
    },
  }),
  computation({
    id: "piston-travel",
    title: "Piston below top dead centre at a crank angle",
    inputs: {
      throw: input.number("in", "crank throw, half the stroke", ABOVE_ZERO),
      rod: input.number("in", "rod, centre to centre", ABOVE_ZERO),
      angle: input.number("deg", "crank angle from top dead centre, either way", { least: -360, most: 360 }),
    },
    unit: "in",
    formula: "distance = throw + rod - throw cos(angle) - sqrt(rod^2 - throw^2 sin(angle)^2)",
    source: "Heywood, Internal Combustion Engine Fundamentals, eq. 2.5; bore over the crank's centre",
    run: (x) => {
      const travel = pistonTravel(x.throw, x.rod, x.angle);
      return { value: travel, parts: { percent_of_stroke: tidy((50 * travel) / x.throw) } };
    },
  }),
  computation({
    id: "piston-to-valve",
    title: "Piston to valve",
    inputs: {
      lift: input.list("in", "valve lift at each angle, lash taken up", 1, 36, NOT_NEGATIVE),
      dial: input.list(
        "in",
        "dial from the closed valve to where it is pushed onto the piston, at each angle",
        1,
        36,
        NOT_NEGATIVE,
      ),
      angle: input.list("deg", "crank angle of each reading", 1, 36),
    },
    unit: "in",
    formula: "clearance at an angle = dial - lift; the smallest counts",
    source: COMMON_PRACTICE,
    run: ({ lift, dial, angle }) => {
      sameCount({ lift, dial, angle });
      const clearances = dial.map((reading, i) => minus(reading, lift[i] ?? inch(0)));
      const least = smallest(clearances);
      if (least < 0) throw new RangeError(`Expected a dial reading of at least the lift at every angle, got ${-least} in less`);
      return { value: least, parts: { at_deg: angle[clearances.indexOf(least)] ?? 0, clearances: inches(clearances) } };
    },
  }),
  computation({
    id: "crank-phase",
    title: "Throws out of phase",
    inputs: {
      angles: input.list("deg", "measured angle of each crankpin from the first", 2, 16),
      nominal: input.list("deg", "angle each was made for, such as 0,180,180,0", 2, 16),
      strokes: { ...input.list("in", "stroke of each throw", 2, 16, ABOVE_ZERO), optional: true as const },
    },
    unit: "deg",
    formula: "angle spread = largest - smallest of (measured - nominal); stroke spread = largest - smallest stroke",
    source: GEOMETRY,
    run: ({ angles, nominal, strokes }) => {
      sameCount({ angles, nominal, ...(strokes === undefined ? {} : { strokes }) });
      const errors = phaseErrors(angles, nominal);
      const spread = range(errors);
      return {
        value: spread,
        parts: { errors_deg: errors, ...(strokes === undefined ? {} : { stroke_spread: inches(range(strokes)) }) },
      };
    },
  }),
  computation({
    id: "points",
    title: "Dwell of contact points",
    inputs: {
      lobes: input.number("ratio", "lobes of the cam that works them", COUNT),
      dwell: input.optional("deg", "cam degrees they are closed for; or give percent", ABOVE_ZERO),
      percent: input.optional("percent", "share of the turn from lobe to lobe they are closed for", ABOVE_ZERO),
      gap: input.optional("in", "gap at full lift", ABOVE_ZERO),
    },
    unit: "deg",
    formula: "lobe to lobe = 360 / lobes; percent = 100 dwell / (360 / lobes); open = the rest",
    source: GEOMETRY,
    run: ({ lobes, dwell, percent, gap }) => {
      if ((dwell === undefined) === (percent === undefined)) {
        throw new Refusal("missing_input", "Expected either dwell or percent for points, got both or neither");
      }
      const turn = 360 / lobes;
      const closed = dwell ?? (turn * (percent ?? 0)) / 100;
      if (!(closed < turn))
        throw new RangeError(`Expected a dwell below ${tidy(turn)} deg for ${lobes} lobes, got ${closed} deg`);
      return {
        value: tidy(closed),
        parts: {
          percent: tidy((100 * closed) / turn),
          open_deg: tidy(turn - closed),
          ...(gap === undefined ? {} : { gap: inches(gap) }),
        },
      };
    },
  }),
];
