// Valves, guides, seats, springs, dippers.
import { minus } from "../../compute/measure.ts";
import { number, figure as text } from "../text.ts";
import { type Advice, fromMiddle, type Remedy, type RemedyRow } from "./types.ts";

/** Set it to the middle of its range. */
const reset: Remedy = ({ accept }) => {
  if (accept.low === undefined || accept.high === undefined) return undefined;
  return `Set it to ${text((accept.low + accept.high) / 2, "in")}, tappet on the heel of the cam, and gauge again.`;
};

/** Thicker shims close the lash. */
const otherShim: Remedy = (trouble) => {
  const off = fromMiddle(trouble);
  if (off === undefined) return undefined;
  return `Fit a lash shim ${text(Math.abs(off.above), "in")} ${off.above > 0 ? "thicker" : "thinner"}, cam lobe pointing away, and gauge again.`;
};

const newGuide: Remedy = ({ accept }) =>
  accept.low === undefined || accept.high === undefined
    ? undefined
    : `Renew the guide, or fit an oversize stem, for ${number(accept.low, "in")} to ${text(accept.high, "in")}; recut the seat after.`;

const narrowSeat: Remedy = ({ value, accept }) =>
  accept.high === undefined
    ? undefined
    : `Narrow it by ${text(minus(value, accept.high), "in")} or more with the top and throat cutters, contact in the middle of the face.`;

const widenSeat: Remedy = ({ accept }) =>
  accept.low === undefined
    ? undefined
    : `Cut the seat to ${text(accept.low, "in")} or more: a narrow seat does not cool the valve.`;

const newSpring: Remedy = ({ value, accept, figure }) =>
  accept.low === undefined
    ? undefined
    : `Renew the spring: it is ${text(minus(accept.low, value), figure.unit)} short. Do not shim a tired spring up to its force.`;

const setDip: Remedy = ({ accept, place }) =>
  accept.low === undefined || accept.high === undefined
    ? undefined
    : `Set dipper or trough of rod ${place.rod ?? "?"} to ${text((accept.low + accept.high) / 2, "in")} of dip, mouth leading, and turn the crank by hand for clearance.`;

const otherStones: Remedy = ({ value, accept }) =>
  accept.high !== undefined && value > accept.high
    ? "A few light strokes with finer stones, then wash and measure the bore again."
    : "The wall is too smooth to bed rings: a few strokes with coarser stones, then wash and measure the bore again.";

const sinkValve: Remedy = ({ value, accept }) =>
  accept.low === undefined
    ? undefined
    : `Find ${number(minus(accept.low, value), "in")} in more before it is turned over: timing marks first, then lift, deck and gasket; a valve that meets its piston bends at the first turn.`;

const freeCoils: Remedy = ({ value, accept }) =>
  accept.low === undefined
    ? undefined
    : `Find ${number(minus(accept.low, value), "in")} in more at full lift: another spring or a longer installed length, no shim under it.`;

const trueFace: Remedy = ({ accept }) =>
  accept.high === undefined
    ? undefined
    : `Clean flange and dowels and bolt it up again a hole on; if it stays, have the face trued to ${text(accept.high, "in")} or less.`;

const trueCam: Remedy = ({ accept }) =>
  accept.high === undefined
    ? undefined
    : `Renew the cam, or have it ground true to ${text(accept.high, "in")} or less; a cast one is not straightened.`;

const wornLobe: Remedy = ({ value }) =>
  `The lobe has lost ${text(value, "in")} of lift: look at its follower, and renew or regrind the cam with all followers faced.`;

const lash: Advice = [
  { needs: ["lash_by_screw"], say: reset },
  { needs: ["lash_by_shim"], say: otherShim },
];
const onValves = (say: Remedy): Advice => [{ needs: ["valves"], say }];
const dip: Advice = [{ needs: ["dippers"], say: setDip }];

export const VALVE_REMEDIES: Readonly<Record<string, RemedyRow>> = {
  valve_lash: { low: lash, high: lash },
  valve_guide_clearance: { high: onValves(newGuide) },
  valve_seat_width: { low: onValves(widenSeat), high: onValves(narrowSeat) },
  valve_spring_force: { low: onValves(newSpring) },
  piston_to_valve: { low: sinkValve },
  coil_clearance: { low: freeCoils },
  flywheel_runout: { high: trueFace },
  cam_runout: { high: onValves(trueCam) },
  lobe_wear: { high: onValves(wornLobe) },
  dipper_depth: { low: dip, high: dip },
  surface_ra: { low: otherStones, high: otherStones },
};
