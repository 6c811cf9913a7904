// A castle nut that stops short of its hole: how thin to stone the washer, and what torque the next slot would take.
import { COMMON_PRACTICE, computation, inches, input } from "./computation.ts";
import { ABOVE_ZERO, COUNT, ONE_TURN } from "./domain.ts";
import { STEEL_MODULUS } from "./elastic.ts";
import {
  type Degree,
  type FootPound,
  type Inch,
  inch,
  lbfPerInch,
  type Measure,
  type PoundForce,
  poundForce,
  type Ratio,
  tidy,
} from "./measure.ts";
import { preload, toFootPounds, toInchPounds, torqueForPreload } from "./torque.ts";

/** Where the next slot stands for a nut that is short of it. Source: FAA AC 43.13-1B, 7-40: start at the low torque, never pass the high. */
export type Advance =
  | "forward"
  /** The slot itself is still below the low torque: tighten to the low torque first. */
  | "tighten_first"
  /** The slot lies past the high torque: change or stone the washer. */
  | "change_washer";

/** Whether to go on to a slot at which the torque is estimated to be `atSlot`: never to one that is still below the low, never past the high. */
export function advance<T extends number>(atSlot: T, { low, high }: { readonly low?: T | undefined; readonly high: T }): Advance {
  if (low !== undefined && atSlot < low) return "tighten_first";
  return atSlot > high ? "change_washer" : "forward";
}

/** Thickness off washer or nut face that lets the nut turn so much further at the same torque: pitch x degrees / 360. */
export function thicknessFor(short: Degree, perInch: Measure<"threads_per_in">): Inch {
  if (!(perInch > 0)) throw new RangeError(`Expected threads per inch above zero, got ${perInch}`);
  if (!(short >= 0)) throw new RangeError(`Expected degrees short of the slot of zero or more, got ${short}`);
  return inch(tidy(short / 360 / perInch));
}

/** The joint about the bolt: what its stretch takes. */
export interface Joint {
  readonly diameter: Inch;
  readonly perInch: Measure<"threads_per_in">;
  readonly k: Ratio;
  /** Length of bolt that stretches. */
  readonly grip: Inch;
  /** Stiffness of what is clamped over that of the bolt; 3 when not known (Shigley, ch. 8 examples lie near 2 to 4). */
  readonly members?: number | undefined;
}

/** Force gained per inch of nut advance: ke = kb km / (kb + km), kb = A E / L. Source: Shigley, ch. 8, fastener stiffness. */
export function jointStiffness(joint: Joint): Measure<"lbf_per_in"> {
  const bolt = ((Math.PI / 4) * joint.diameter ** 2 * STEEL_MODULUS) / joint.grip;
  const members = (joint.members ?? 3) * bolt;
  return lbfPerInch((bolt * members) / (bolt + members));
}

/** Estimated torque when the nut is advanced by `turn` beyond `torque`. Wind-up and embedding make the true one lower by a third or more. */
export function torqueAfterTurn(torque: FootPound, turn: Degree, joint: Joint): FootPound {
  const now = preload(toInchPounds(torque), joint.diameter, joint.k);
  const gain = (jointStiffness(joint) * turn) / 360 / joint.perInch;
  return toFootPounds(torqueForPreload(poundForce(now + gain), joint.diameter, joint.k));
}

/** How far the nut may turn from `torque` before the estimate reaches `most`. */
export function turnToReach(torque: FootPound, most: FootPound, joint: Joint): Degree {
  const room: PoundForce = poundForce(
    preload(toInchPounds(most), joint.diameter, joint.k) - preload(toInchPounds(torque), joint.diameter, joint.k),
  );
  return tidy(((room / jointStiffness(joint)) * joint.perInch * 360) as Degree);
}

export const CASTLE_NUT_COMPUTATIONS = [
  computation({
    id: "castle-nut",
    title: "Castle nut short of its hole",
    inputs: {
      short: input.number("deg", "degrees short of the next slot", ONE_TURN),
      "threads-per-inch": { ...input.number("threads_per_in", "threads per inch", ABOVE_ZERO), exact: true as const },
      torque: input.optional("ft_lbf", "torque reached", ABOVE_ZERO),
      low: input.optional("ft_lbf", "least torque allowed", ABOVE_ZERO),
      high: input.optional("ft_lbf", "most torque allowed", ABOVE_ZERO),
      diameter: input.optional("in", "thread's major diameter", ABOVE_ZERO),
      k: input.optional("ratio", "nut factor", ABOVE_ZERO),
      grip: input.optional("in", "length of bolt that stretches", ABOVE_ZERO),
    },
    unit: "in",
    formula:
      "thickness to stone off washer or nut face = short / 360 / threads per inch; torque at the slot from T = K F d and the bolt's stiffness",
    source:
      "thread geometry; FAA AC 43.13-1B, 7-40: start at the low torque, never pass the high, else change washer or nut and try again; Shigley ch. 8 for the estimate",
    run: (x) => {
      const thickness = thicknessFor(x.short, x["threads-per-inch"]);
      const { torque, diameter, k, grip } = x;
      const never = "never back off to line up";
      if (torque === undefined || diameter === undefined || k === undefined || grip === undefined) {
        return { value: thickness, parts: { thickness: inches(thickness), rule: never } };
      }
      const joint = { diameter, perInch: x["threads-per-inch"], k, grip };
      const atSlot = torqueAfterTurn(torque, x.short, joint);
      const { low, high } = x;
      if (low !== undefined && high !== undefined && low > high) {
        throw new RangeError(`Expected low at or below high, got ${low} and ${high} ft-lbf`);
      }
      const advised = high === undefined ? undefined : advance(atSlot, { low, high });
      return {
        value: thickness,
        parts: {
          thickness: inches(thickness),
          torque_at_slot_ft_lbf: atSlot,
          ...(high === undefined || advised === undefined
            ? {}
            : { degrees_to_high: turnToReach(torque, high, joint), may_advance: advised === "forward", advised }),
          rule: never,
        },
      };
    },
  }),
  computation({
    id: "slot-pitch",
    title: "Degrees between places a cotter can go",
    inputs: {
      slots: input.number("ratio", "slots in the nut", COUNT),
      holes: input.number("ratio", "cross holes in the bolt", COUNT),
    },
    unit: "deg",
    formula: "one hole: 360 / slots; two holes at right angles: half of it where the quarter turn falls between slots",
    source: COMMON_PRACTICE,
    run: (x) => {
      const step = 360 / x.slots;
      const between = 90 % step;
      return { value: tidy(x.holes >= 2 && between !== 0 ? Math.min(between, step - between) : step) };
    },
  }),
];
