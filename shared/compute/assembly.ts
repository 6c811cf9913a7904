// Going together: balance weights, babbitt left on a bearing, rollers in their track, the deck's squareness, gasket and lobe.
import { COMMON_PRACTICE, computation, GEOMETRY, inches, input } from "./computation.ts";
import { ABOVE_ZERO, COUNT, NOT_NEGATIVE, TEMPERATURE } from "./domain.ts";
import { type Inch, inch, largest, minus, plus, range, smallest, tidy, times } from "./measure.ts";

/** Weight on a crankpin that stands for its rods and pistons: all that turns, and a share of what goes up and down. */
export function bobweight(rotating: number, reciprocating: number, rods: number, factor: number): number {
  return tidy(rods * (rotating + factor * reciprocating));
}

/** Half of the reciprocating weight: what a 90-degree V with two rods a pin takes (common practice, no source). */
const HALF = 0.5;

/** Clearance of rollers between pin and track, on the diameter. */
export const rollerClearance = (track: Inch, pin: Inch, roller: Inch): Inch => minus(minus(track, pin), times(roller, 2));

/** What is left round the circle when `count` rollers stand side by side on the pin. */
export function rollerGap(pin: Inch, roller: Inch, count: number): Inch {
  const circle = pin + roller;
  // Rollers that just touch leave some 1e-16 of rounding.
  return inch(Number(((Math.PI - count * Math.asin(roller / circle)) * circle).toFixed(12)));
}

export interface Squareness {
  readonly along: Inch;
  readonly across: Inch;
  /** What is neither: one diagonal against the other. */
  readonly twist: Inch;
}

/** Four corners of a deck above the crank's centre line: front left, front right, rear left, rear right. */
export function deckSquareness([fl, fr, rl, rr]: readonly [Inch, Inch, Inch, Inch]): Squareness {
  const half = (a: readonly [Inch, Inch], b: readonly [Inch, Inch]): Inch => times(minus(plus(...a), plus(...b)), 0.5);
  return { along: half([fl, fr], [rl, rr]), across: half([fl, rl], [fr, rr]), twist: half([fl, rr], [fr, rl]) };
}

const POURING =
  "metal about 424 degC (795 degF) for tin babbitt of ASTM B23 grade 2, from memory; shell 230 to 340 degC (450 to 650 degF), common practice, no source; everything bone dry; the supplier's sheet wins";

export const ASSEMBLY_COMPUTATIONS = [
  computation({
    id: "bobweight",
    title: "Bobweight for a crankpin",
    inputs: {
      rotating: input.number("g", "big end, shell and oil of one rod", ABOVE_ZERO),
      reciprocating: input.number("g", "piston, pin, rings and small end of one rod", NOT_NEGATIVE),
      rods: input.number("ratio", "rods a pin", COUNT),
      factor: input.optional("ratio", "share of the reciprocating weight; 0.5 when left out, as for a 90-degree V", {
        least: 0,
        most: 1,
      }),
    },
    unit: "g",
    formula: "bobweight = rods x (rotating + factor x reciprocating)",
    source: `${COMMON_PRACTICE}: half of the reciprocating weight in a 90-degree V; the factor of another engine is its maker's`,
    run: (x) => {
      const factor = x.factor ?? HALF;
      return {
        value: bobweight(x.rotating, x.reciprocating, x.rods, factor),
        parts: { rotating_g: tidy(x.rods * x.rotating), factor },
      };
    },
  }),
  computation({
    id: "line-bore",
    title: "Babbitt left after line boring",
    inputs: {
      recess: input.number("in", "bore of the shell or housing under the babbitt", ABOVE_ZERO),
      bore: input.number("in", "finished bore", ABOVE_ZERO),
      pour: input.optional("degC", "metal when it was poured", TEMPERATURE),
      shell: input.optional("degC", "shell when it was poured into", TEMPERATURE),
    },
    unit: "in",
    formula: "babbitt = (recess - bore) / 2",
    source: `${GEOMETRY}; pouring: ${POURING}`,
    run: (x) => {
      if (!(x.recess > x.bore)) throw new RangeError(`Expected a recess wider than the bore of ${x.bore} in, got ${x.recess} in`);
      return {
        value: times(minus(x.recess, x.bore), 0.5),
        parts: {
          pouring: POURING,
          ...(x.pour === undefined ? {} : { pour: { value: x.pour, unit: "degC" } }),
          ...(x.shell === undefined ? {} : { shell: { value: x.shell, unit: "degC" } }),
        },
      };
    },
  }),
  computation({
    id: "roller-fit",
    title: "Rollers between pin and track",
    inputs: {
      track: input.number("in", "bore of the track", ABOVE_ZERO),
      pin: input.number("in", "pin or inner race", ABOVE_ZERO),
      roller: input.number("in", "roller diameter", ABOVE_ZERO),
      rollers: input.optional("ratio", "how many, for the gap round the circle", COUNT),
    },
    unit: "in",
    formula: "clearance = track - pin - 2 roller; gap = (pi - rollers asin(roller / (pin + roller))) (pin + roller)",
    source: GEOMETRY,
    run: (x) => {
      const clearance = rollerClearance(x.track, x.pin, x.roller);
      if (x.rollers === undefined) return { value: clearance };
      const gap = rollerGap(x.pin, x.roller, x.rollers);
      if (gap < 0) throw new RangeError(`Expected rollers that fit round the pin, got ${x.rollers}, too many by ${-gap} in`);
      return { value: clearance, parts: { gap_round: inches(gap) } };
    },
  }),
  computation({
    id: "deck-squareness",
    title: "Deck against the crank's centre line",
    inputs: {
      readings: input.list("in", "crank centre to deck: front left, front right, rear left, rear right", 4, 4, ABOVE_ZERO),
      length: input.optional("in", "front to rear reading, for the slope", ABOVE_ZERO),
    },
    unit: "in",
    formula:
      "spread = largest - smallest; along = mean front - mean rear; across = mean left - mean right; twist = half the difference of the diagonals",
    source: GEOMETRY,
    run: ({ readings, length }) => {
      const [fl, fr, rl, rr] = readings as unknown as readonly [Inch, Inch, Inch, Inch];
      const { along, across, twist } = deckSquareness([fl, fr, rl, rr]);
      return {
        value: range(readings),
        parts: {
          along: inches(along),
          across: inches(across),
          twist: inches(twist),
          ...(length === undefined ? {} : { along_in_per_in: tidy(along / length) }),
        },
      };
    },
  }),
  computation({
    id: "gasket-crush",
    title: "How far a gasket is squeezed",
    inputs: {
      free: input.number("in", "gasket as it came", ABOVE_ZERO),
      squeezed: input.number("in", "gasket squeezed at full torque", ABOVE_ZERO),
    },
    unit: "in",
    formula: "crush = free - squeezed; percent = 100 crush / free",
    source: COMMON_PRACTICE,
    run: ({ free, squeezed }) => {
      if (squeezed > free) throw new RangeError(`Expected a squeezed gasket no thicker than ${free} in, got ${squeezed} in`);
      const crush = minus(free, squeezed);
      return { value: crush, parts: { percent: tidy((100 * crush) / free) } };
    },
  }),
  computation({
    id: "lobe-wear",
    title: "Wear of cam lobes",
    inputs: {
      lifts: input.list("in", "lift of each lobe of one kind", 1, 32, NOT_NEGATIVE),
      standard: input.optional("in", "lift as made; the largest found when left out", ABOVE_ZERO),
    },
    unit: "in",
    formula: "wear = standard - smallest lift; spread = largest - smallest",
    source: COMMON_PRACTICE,
    run: ({ lifts, standard }) => {
      const least = smallest(lifts);
      const from = standard ?? largest(lifts);
      return { value: minus(from, least), parts: { lobe: lifts.indexOf(least) + 1, spread: inches(range(lifts)) } };
    },
  }),
];
