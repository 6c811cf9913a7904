// Displacement and compression ratio, with gasket, chamber and the piston's place at the top of its stroke.
import { COMMON_PRACTICE, computation, input } from "./computation.ts";
import { ABOVE_ZERO, COUNT, NOT_NEGATIVE } from "./domain.ts";
import {
  type CubicCentimetre,
  type CubicInch,
  cc,
  cubicInch,
  type Inch,
  minus,
  type Ratio,
  ratio,
  type SquareInch,
  squareInch,
  tidy,
} from "./measure.ts";

/** 1 in = 25.4 mm exactly, so 1 in3 = 16.387064 cc exactly. Source: NIST SP 811, B.8. */
const CC_PER_IN3 = 16.387064;

export const toCc = (volume: CubicInch): CubicCentimetre => cc(tidy(volume * CC_PER_IN3));
const toIn3 = (volume: CubicCentimetre): CubicInch => cubicInch(volume / CC_PER_IN3);

export function boreArea(bore: Inch): SquareInch {
  return squareInch((Math.PI / 4) * bore * bore);
}

/** Swept volume of one cylinder. */
export function sweptVolume(bore: Inch, stroke: Inch): CubicInch {
  return cubicInch(tidy(boreArea(bore) * stroke));
}

/** All cylinders' swept volume. @throws RangeError when the count is no whole number above zero */
export function displacement(bore: Inch, stroke: Inch, cylinders: number): CubicInch {
  if (!Number.isInteger(cylinders) || cylinders < 1)
    throw new RangeError(`Expected a whole number of cylinders, got ${cylinders}`);
  return cubicInch(tidy(boreArea(bore) * stroke * cylinders));
}

export interface Chamber {
  readonly bore: Inch;
  readonly stroke: Inch;
  /** Chamber in the head, as poured. */
  readonly chamber: CubicCentimetre;
  readonly gasketThickness: Inch;
  /** The gasket's own opening: on a side-valve engine far larger than the bore. */
  readonly gasketArea: SquareInch;
  /** Piston above the deck at top dead centre; below is negative. */
  readonly protrusion: Inch;
  /** Raised crown, and hollow in it. */
  readonly dome?: CubicCentimetre | undefined;
  readonly dish?: CubicCentimetre | undefined;
}

/** What is left above the piston at the top: chamber + gasket - what the piston takes of it. */
export function clearanceVolume(c: Chamber): CubicCentimetre {
  const gasket = c.gasketArea * c.gasketThickness * CC_PER_IN3;
  const crown = boreArea(c.bore) * c.protrusion * CC_PER_IN3;
  return cc(tidy(c.chamber + gasket - crown - (c.dome ?? 0) + (c.dish ?? 0)));
}

/** Ratio from volumes: (swept + clearance) / clearance. @throws RangeError when there is no clearance volume */
export function ratioOf(swept: CubicInch, clearance: CubicInch): Ratio {
  if (!(clearance > 0)) throw new RangeError(`Expected a clearance volume above zero, got ${clearance}`);
  return ratio(tidy(1 + swept / clearance));
}

/** Compression ratio of one cylinder (textbook definition, e.g. Heywood, Internal Combustion Engine Fundamentals, eq. 2.1). */
export function compressionRatio(c: Chamber): Ratio {
  return ratioOf(sweptVolume(c.bore, c.stroke), toIn3(clearanceVolume(c)));
}

/** Chamber volume in the head that gives a wanted ratio, the rest unchanged. */
export function chamberForRatio(c: Chamber, wanted: Ratio): CubicCentimetre {
  if (!(wanted > 1)) throw new RangeError(`Expected a ratio above 1, got ${wanted}`);
  const clearance = toCc(sweptVolume(c.bore, c.stroke)) / (wanted - 1);
  return cc(tidy(c.chamber + clearance - clearanceVolume(c)));
}

const BORE = input.number("in", "bore", ABOVE_ZERO);
const STROKE = input.number("in", "stroke", ABOVE_ZERO);

export const RATIO_COMPUTATIONS = [
  computation({
    id: "displacement",
    title: "Displacement",
    inputs: { bore: BORE, stroke: STROKE, cylinders: input.number("ratio", "number of cylinders", COUNT) },
    unit: "in3",
    formula: "displacement = pi/4 bore^2 stroke cylinders",
    source: "Heywood, Internal Combustion Engine Fundamentals, eq. 2.1 ff.",
    run: (x) => {
      const total = displacement(x.bore, x.stroke, x.cylinders);
      return { value: total, parts: { cc: toCc(total), per_cylinder: { value: sweptVolume(x.bore, x.stroke), unit: "in3" } } };
    },
  }),
  computation({
    id: "compression-ratio",
    title: "Compression ratio",
    inputs: {
      bore: BORE,
      stroke: STROKE,
      chamber: input.number("cc", "chamber in the head", NOT_NEGATIVE),
      "gasket-thickness": input.optional("in", "gasket, squeezed; 0 when left out", NOT_NEGATIVE),
      "gasket-area": input.optional("in2", "gasket opening; the bore's area when left out", ABOVE_ZERO),
      protrusion: input.optional("in", "piston above the deck, below is negative; 0 when left out"),
      dome: input.optional("cc", "raised crown", NOT_NEGATIVE),
      dish: input.optional("cc", "hollow in the crown", NOT_NEGATIVE),
    },
    unit: "ratio",
    formula:
      "CR = 1 + Vs / Vc; Vs = pi/4 bore^2 stroke; Vc = chamber + gasket area x thickness - protrusion x pi/4 bore^2 - dome + dish",
    source: "Heywood, Internal Combustion Engine Fundamentals, eq. 2.1",
    run: (x) => {
      const chamber: Chamber = {
        bore: x.bore,
        stroke: x.stroke,
        chamber: x.chamber,
        gasketThickness: x["gasket-thickness"] ?? (0 as Inch),
        gasketArea: x["gasket-area"] ?? boreArea(x.bore),
        protrusion: x.protrusion ?? (0 as Inch),
        dome: x.dome,
        dish: x.dish,
      };
      return {
        value: compressionRatio(chamber),
        parts: { swept_cc: toCc(sweptVolume(x.bore, x.stroke)), clearance_cc: clearanceVolume(chamber) },
      };
    },
  }),
  computation({
    id: "ratio-from-volumes",
    title: "Compression ratio from volumes",
    inputs: {
      swept: input.number("cc", "swept volume", ABOVE_ZERO),
      clearance: input.number("cc", "volume left at the top", ABOVE_ZERO),
    },
    unit: "ratio",
    formula: "CR = (swept + clearance) / clearance",
    source: "Heywood, Internal Combustion Engine Fundamentals, eq. 2.1",
    run: (x) => ({ value: ratioOf(toIn3(x.swept), toIn3(x.clearance)) }),
  }),
  computation({
    id: "chamber-spread",
    title: "Spread of the chambers",
    inputs: { chambers: input.list("cc", "one chamber a cylinder", 2, 16, ABOVE_ZERO) },
    unit: "cc",
    formula: "spread = largest - smallest",
    source: COMMON_PRACTICE,
    run: (x) => ({ value: minus(Math.max(...x.chambers), Math.min(...x.chambers)) }),
  }),
];
