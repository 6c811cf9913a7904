// A castle nut that stops short of its hole: how thin to stone the washer, and what torque the next slot would take.
import { COMMON_PRACTICE, computation, input } from "./computation.ts";
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
import { STEEL_MODULUS } from "./shell.ts";
import { preload, toFootPounds, toInchPounds, torqueForPreload } from "./torque.ts";

/** Thickness off washer or nut face that lets the nut turn so much further at the same torque: pitch x degrees / 360. */
export function thicknessFor(short: Degree, perInch: Measure<"threads_per_in">): Inch {
  if (!(perInch > 0)) throw new RangeError(`Expected threads per inch above zero, got ${perInch}`);
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
      short: input.number("deg", "degrees short of the next slot"),
      "threads-per-inch": input.number("threads_per_in", "threads per inch"),
      torque: input.optional("ft_lbf", "torque reached"),
      high: input.optional("ft_lbf", "most torque allowed"),
      diameter: input.optional("in", "thread's major diameter"),
      k: input.optional("ratio", "nut factor"),
      grip: input.optional("in", "length of bolt that stretches"),
    },
    unit: "in",
    formula:
      "thickness to stone off washer or nut face = short / 360 / threads per inch; torque at the slot from T = K F d and the bolt's stiffness",
    source:
      "thread geometry; FAA AC 43.13-1B, 7-40: reach the low torque, never pass the high, else change washer or nut; Shigley ch. 8 for the estimate",
    run: (x) => {
      const thickness = thicknessFor(x.short, x["threads-per-inch"]);
      const { torque, diameter, k, grip } = x;
      const never = "never back off to line up";
      if (torque === undefined || diameter === undefined || k === undefined || grip === undefined) {
        return { value: thickness, parts: { thickness, rule: never } };
      }
      const joint = { diameter, perInch: x["threads-per-inch"], k, grip };
      const atSlot = torqueAfterTurn(torque, x.short, joint);
      return {
        value: thickness,
        parts: {
          thickness,
          torque_at_slot_ft_lbf: atSlot,
          ...(x.high === undefined ? {} : { degrees_to_high: turnToReach(torque, x.high, joint), may_advance: atSlot <= x.high }),
          rule: never,
        },
      };
    },
  }),
  computation({
    id: "slot-pitch",
    title: "Degrees between places a cotter can go",
    inputs: { slots: input.number("ratio", "slots in the nut"), holes: input.number("ratio", "cross holes in the bolt") },
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
