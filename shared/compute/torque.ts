// Tightening: wrench extension, preload from torque, bolt stress. Estimates: friction alone moves preload by a quarter.
import { anyOf, computation, GEOMETRY, input, Refusal } from "./computation.ts";
import { ABOVE_ZERO, HALF_TURN, NOT_NEGATIVE } from "./domain.ts";
import { STEEL_MODULUS } from "./elastic.ts";
import {
  type Degree,
  type FootPound,
  footPound,
  type Inch,
  type InchPound,
  inchPound,
  lbfPerSquareInch,
  type Measure,
  type Millimetre,
  minus,
  type PoundForce,
  poundForce,
  type Ratio,
  type SquareInch,
  tidy,
} from "./measure.ts";

const SHIGLEY = "Shigley's Mechanical Engineering Design, 9th ed.";

/** Setting of the wrench when an extension stands in line with it, or at an angle to it. Source: TM 1-1500-204-23-9, fig. 8-16; TM 9-254, fig. 4-6. */
export function extensionSetting<T extends number>(torque: T, length: Inch, extension: Inch, angle: Degree = 0 as Degree): T {
  const lever = length + extension * Math.cos((angle * Math.PI) / 180);
  if (!(lever > 0)) throw new RangeError(`Expected a lever above zero, got ${lever} in`);
  return tidy(((torque * length) / lever) as T);
}

/** Preload from torque: F = T / (K d). Source: Shigley, eq. 8-27. */
export function preload(torque: InchPound, diameter: Inch, k: Ratio): PoundForce {
  if (!(k > 0 && diameter > 0)) throw new RangeError(`Expected K and diameter above zero, got ${k} and ${diameter} in`);
  return poundForce(tidy(torque / (k * diameter)));
}

/** Torque for a preload: T = K F d. */
export function torqueForPreload(force: PoundForce, diameter: Inch, k: Ratio): InchPound {
  return inchPound(tidy(k * force * diameter));
}

/** 12 in-lbf to the ft-lbf, exactly. */
export const toInchPounds = (torque: FootPound): InchPound => inchPound(tidy(torque * 12));
export const toFootPounds = (torque: InchPound): FootPound => footPound(tidy(torque / 12));

export function boltStress(force: PoundForce, area: SquareInch): Measure<"lbf_per_in2"> {
  if (!(area > 0)) throw new RangeError(`Expected a stress area above zero, got ${area} in2`);
  return lbfPerSquareInch(tidy(force / area));
}

/** Tensile stress area of a unified inch thread: pi/4 (d - 0.9743 / n)^2. Source: ASME B1.1-2019. */
export function stressArea(diameter: Inch, perInch: Measure<"threads_per_in">): SquareInch {
  return coreArea(diameter, 0.9743 / perInch);
}

/** Tensile stress area of a metric thread: pi/4 (d - 0.9382 P)^2. Source: ISO 898-1:2013, 9.1.6.1. */
export function metricStressArea(diameter: Millimetre, pitch: Millimetre): Measure<"mm2"> {
  return coreArea(diameter, 0.9382 * pitch);
}

/** Circle of what is left of a diameter. @throws RangeError when the thread is as deep as the bolt */
function coreArea<T extends number>(diameter: number, thread: number): T {
  if (!(diameter > thread))
    throw new RangeError(`Expected a thread shallower than its diameter of ${diameter}, got ${tidy(thread)}`);
  return tidy(((Math.PI / 4) * (diameter - thread) ** 2) as T);
}

/** Nut advance for a turn: pitch x angle / 360, in the pitch's unit. */
export function stretchFromTurn(angle: Degree, pitch: number): number {
  return tidy((pitch * angle) / 360);
}

/** Nut factors by condition. Source: Shigley, Table 8-15. */
export const NUT_FACTORS = [
  { id: "nonplated_black", k: 0.3 },
  { id: "zinc_plated", k: 0.2 },
  { id: "lubricated", k: 0.18 },
  { id: "cadmium_plated", k: 0.16 },
  { id: "anti_seize", k: 0.12 },
] as const;

const K = input.number("ratio", "nut factor: .18 lubricated, .20 zinc, .30 black (Shigley, Table 8-15)", ABOVE_ZERO);
const DIAMETER = { ...input.number("in", "thread's major diameter", ABOVE_ZERO), exact: true as const };

export const TORQUE_COMPUTATIONS = [
  computation({
    id: "extension",
    title: "Wrench setting with an extension",
    inputs: {
      torque: input.number("any", "torque wanted at the fastener", ABOVE_ZERO),
      length: input.number("in", "wrench, grip to square", ABOVE_ZERO),
      extension: input.number("in", "extension, square to fastener", NOT_NEGATIVE),
      angle: input.optional("deg", "extension to wrench; 0 in line", HALF_TURN),
    },
    unit: "any",
    formula: "setting = torque x length / (length + extension cos(angle))",
    source: "TM 1-1500-204-23-9, fig. 8-16; FAA AC 43.13-1B, ch. 7",
    run: (x, given) => ({
      value: extensionSetting(x.torque, x.length, x.extension, x.angle),
      unit: anyOf("torque", given),
    }),
  }),
  computation({
    id: "preload",
    title: "Preload from torque",
    inputs: {
      torque: input.number("ft_lbf", "tightening torque", ABOVE_ZERO),
      diameter: DIAMETER,
      k: K,
      "stress-area": input.optional("in2", "tensile stress area, for the stress", ABOVE_ZERO),
    },
    unit: "lbf",
    formula: "F = T / (K d)",
    source: `${SHIGLEY}, eq. 8-27 and Table 8-15; an estimate, friction alone moves it by a quarter`,
    run: (x) => {
      const force = preload(toInchPounds(x.torque), x.diameter, x.k);
      if (x["stress-area"] === undefined) return { value: force };
      return { value: force, parts: { stress_lbf_per_in2: boltStress(force, x["stress-area"]) } };
    },
  }),
  computation({
    id: "torque-for-preload",
    title: "Torque for a preload",
    inputs: { force: input.number("lbf", "preload wanted", ABOVE_ZERO), diameter: DIAMETER, k: K },
    unit: "ft_lbf",
    formula: "T = K F d",
    source: `${SHIGLEY}, eq. 8-27 and Table 8-15`,
    run: (x) => ({ value: toFootPounds(torqueForPreload(x.force, x.diameter, x.k)) }),
  }),
  computation({
    id: "bolt-stress",
    title: "Stress in a bolt",
    inputs: {
      force: input.number("lbf", "preload", NOT_NEGATIVE),
      area: input.number("in2", "tensile stress area", ABOVE_ZERO),
      proof: input.optional("lbf_per_in2", "proof strength of the bolt's grade, for its share", ABOVE_ZERO),
    },
    unit: "lbf_per_in2",
    formula: "stress = F / At; share of proof = stress / proof",
    source: `${SHIGLEY}, ch. 8`,
    run: (x) => {
      const stress = boltStress(x.force, x.area);
      return { value: stress, ...(x.proof === undefined ? {} : { parts: { percent_of_proof: tidy((100 * stress) / x.proof) } }) };
    },
  }),
  computation({
    id: "stress-area",
    title: "Tensile stress area of an inch thread",
    inputs: {
      diameter: DIAMETER,
      "threads-per-inch": { ...input.number("threads_per_in", "threads per inch", ABOVE_ZERO), exact: true as const },
    },
    unit: "in2",
    formula: "At = pi/4 (d - 0.9743 / n)^2",
    source: "ASME B1.1-2019, unified inch screw threads, nonmandatory appendix on stress area",
    run: (x) => ({ value: stressArea(x.diameter, x["threads-per-inch"]) }),
  }),
  computation({
    id: "metric-stress-area",
    title: "Tensile stress area of a metric thread",
    inputs: {
      diameter: { ...input.number("mm", "thread's nominal diameter", ABOVE_ZERO), exact: true as const },
      pitch: { ...input.number("mm", "pitch", ABOVE_ZERO), exact: true as const },
    },
    unit: "mm2",
    formula: "At = pi/4 (d - 0.9382 P)^2",
    source: "ISO 898-1:2013, nominal stress area; dimensions of the thread from ISO 724",
    run: (x) => ({ value: metricStressArea(x.diameter, x.pitch) }),
  }),
  computation({
    id: "torque-angle",
    title: "Stretch from an angle of turn",
    inputs: {
      angle: input.number("deg", "turn after the joint is snug", { least: 0, most: 720 }),
      pitch: { ...input.optional("mm", "pitch of the thread; or give threads-per-inch", ABOVE_ZERO), exact: true as const },
      "threads-per-inch": input.optional("threads_per_in", "threads per inch", ABOVE_ZERO),
      grip: input.optional("mm", "length of bolt that stretches, for the stress of a steel bolt", ABOVE_ZERO),
    },
    unit: "mm",
    formula: "stretch = pitch angle / 360, shared by the bolt and what it clamps; stress at most E stretch / grip",
    source: `${GEOMETRY}; ${SHIGLEY}, eq. 8-28 (turn of the nut)`,
    run: (x) => {
      const perInch = x["threads-per-inch"];
      if ((x.pitch === undefined) === (perInch === undefined)) {
        throw new Refusal("missing_input", "Expected either pitch or threads-per-inch for torque-angle, got both or neither");
      }
      const stretch = stretchFromTurn(x.angle, x.pitch ?? 25.4 / (perInch ?? 1));
      const { grip } = x;
      // An inch thread is an inch question; a pitch already says its system by its own unit.
      const answer = perInch === undefined ? { value: stretch } : { value: tidy(stretch / 25.4), unit: "in" as const };
      if (grip === undefined) return answer;
      return { ...answer, parts: { most_stress: { value: tidy((STEEL_MODULUS * stretch) / grip), unit: "lbf_per_in2" } } };
    },
  }),
  computation({
    id: "bolt-stretch",
    title: "Stretch of a bolt",
    inputs: { tight: input.number("in", "length tight", ABOVE_ZERO), free: input.number("in", "length free", ABOVE_ZERO) },
    unit: "in",
    formula: "stretch = tight - free",
    source: `${GEOMETRY}; TM 55-1905-223-24-1 accepts by stretch`,
    run: (x) => ({ value: minus(x.tight, x.free) }),
  }),
];
