// Where the piston stops: protrusion, deck stack, and the clearance from its crown to the head.
import { computation, GEOMETRY, input } from "./computation.ts";
import { ABOVE_ZERO, NOT_NEGATIVE } from "./domain.ts";
import { type Inch, minus, plus, times } from "./measure.ts";

/** Crown to head at the top: gasket + recess in the head - protrusion (below the deck is negative protrusion). */
export function pistonToHead(gasket: Inch, recess: Inch, protrusion: Inch): Inch {
  return minus(plus(gasket, recess), protrusion);
}

/** Gasket that gives a wanted crown clearance. */
export function gasketFor(clearance: Inch, recess: Inch, protrusion: Inch): Inch {
  return plus(minus(clearance, recess), protrusion);
}

/** Protrusion from the stack: rod + half the stroke + compression height - block height. */
export function protrusionFromStack(block: Inch, rod: Inch, stroke: Inch, compressionHeight: Inch): Inch {
  return minus(plus(rod, times(stroke, 0.5), compressionHeight), block);
}

/** Mean of two readings over the pin axis: a piston rocks across it, not along it. */
export function meanProtrusion(front: Inch, rear: Inch): Inch {
  return times(plus(front, rear), 0.5);
}

export const DECK_COMPUTATIONS = [
  computation({
    id: "piston-to-head",
    title: "Piston to head",
    inputs: {
      gasket: input.number("in", "gasket, squeezed", NOT_NEGATIVE),
      recess: input.number("in", "depth of the recess in the head; 0 for a flat head", NOT_NEGATIVE),
      protrusion: input.number("in", "piston above the deck; below is negative"),
    },
    unit: "in",
    formula: "clearance = gasket + recess - protrusion",
    source: `${GEOMETRY}; the gasket rule of TM 10-4320-310-14, p. 5-22, solved for the clearance`,
    run: (x) => ({ value: pistonToHead(x.gasket, x.recess, x.protrusion) }),
  }),
  computation({
    id: "gasket-for-clearance",
    title: "Gasket for a wanted piston to head clearance",
    inputs: {
      clearance: input.number("in", "clearance wanted", NOT_NEGATIVE),
      recess: input.number("in", "depth of the recess in the head", NOT_NEGATIVE),
      protrusion: input.number("in", "piston above the deck; below is negative"),
    },
    unit: "in",
    formula: "gasket = clearance - recess + protrusion",
    source: "TM 10-4320-310-14, p. 5-22: gasket = required clearance - measured depth",
    run: (x) => {
      const gasket = gasketFor(x.clearance, x.recess, x.protrusion);
      if (gasket < 0)
        throw new RangeError(`Expected a clearance above what the recess and piston leave, got a gasket of ${gasket} in`);
      return { value: gasket };
    },
  }),
  computation({
    id: "deck-height",
    title: "Protrusion from the stack",
    inputs: {
      block: input.number("in", "crank centre to deck", ABOVE_ZERO),
      rod: input.number("in", "rod, centre to centre", ABOVE_ZERO),
      stroke: input.number("in", "stroke", ABOVE_ZERO),
      "compression-height": input.number("in", "pin centre to crown", ABOVE_ZERO),
    },
    unit: "in",
    formula: "protrusion = rod + stroke/2 + compression height - block",
    source: GEOMETRY,
    run: (x) => ({ value: protrusionFromStack(x.block, x.rod, x.stroke, x["compression-height"]) }),
  }),
  computation({
    id: "protrusion",
    title: "Protrusion from two readings",
    inputs: { front: input.number("in", "over the pin, front"), rear: input.number("in", "over the pin, rear") },
    unit: "in",
    formula: "protrusion = (front + rear) / 2",
    source: "common practice of service manuals: mean of two points over the pin axis",
    run: (x) => ({ value: meanProtrusion(x.front, x.rear) }),
  }),
];
