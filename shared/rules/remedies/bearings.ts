// Bearings, shims, end float, journals, rods.
import { shimChange } from "../../compute/bearing.ts";
import { inch, minus } from "../../compute/measure.ts";
import { nextUndersize } from "../../compute/size-steps.ts";
import type { RuleContext } from "../context.ts";
import { nominal, sheetFigure, upTo, valueIn, within } from "../figures/pick.ts";
import { number } from "../text.ts";
import type { Remedy, RemedyRow } from "./types.ts";

/** Thinnest lamination when the sheet names none (common practice: .001, .002 and .003 in). */
const THINNEST = 0.001;

const thinnest = (context: RuleContext) =>
  inch(sheetFigure(context.spec, "shim_spare") ?? sheetFigure(context.spec, "shim_lamination") ?? THINNEST);

/** The same laminations out of, or into, both sides. */
const shims: Remedy = ({ value, accept, context }) => {
  if (accept.low === undefined || accept.high === undefined) return undefined;
  const change = shimChange(inch(value), inch(accept.low), inch(accept.high), thinnest(context));
  if (change === undefined || change.each === 0) return undefined;
  const amount = number(Math.abs(change.each), "in");
  const verb = change.each > 0 ? `Take ${amount} in of shim from` : `Add ${amount} in of shim to`;
  return `${verb} each side, the same on both, then gauge again: it should come to ${number(change.clearance, "in")} in.`;
};

const thrustShim: Remedy = ({ value, accept }) => {
  if (accept.low === undefined || accept.high === undefined) return undefined;
  const target = Number(((accept.low + accept.high) / 2).toPrecision(6));
  const change = minus(value, target);
  const verb = change > 0 ? "Take" : "Add";
  return `${verb} ${number(Math.abs(change), "in")} in of thrust shim for ${number(target, "in")} in, the middle of the range.`;
};

/** One undersize for the whole set of journals. */
const regrind: Remedy = ({ place, context }) => {
  const mains = place.main !== undefined;
  const quantity = mains ? "main_journal_diameter" : "crankpin_diameter";
  const standard = nominal(context.spec, mains ? "main_journal" : "crankpin");
  if (standard === undefined) return undefined;
  const count = mains ? context.spec.engine.mains : context.spec.engine.cylinders;
  const sizes = upTo(count).flatMap((n) => {
    const where = mains ? { main: n } : { rod: n };
    const oval = within(context, "journal_out_of_round", where).map((logged) => valueIn(logged, "in"));
    // A single size with its out-of-round was read across the large way, so the small way is that much less.
    return within(context, quantity, where).map((logged) => minus(valueIn(logged, "in"), Math.max(0, ...oval)));
  });
  if (sizes.length === 0) return undefined;
  const steps = context.spec.undersizes.map((step) => inch(Number(step)));
  const smallest = inch(Math.min(...sizes));
  const next = nextUndersize(smallest, inch(standard), steps.length > 0 ? steps : undefined);
  const set = mains ? "all mains" : "all crankpins";
  if (next.step === undefined || next.size === undefined) {
    return `Build up or renew the crank: the smallest, ${number(smallest, "in")} in, is past the last undersize of the sheet.`;
  }
  return `Grind ${set} ${next.step.toFixed(3)} under (${number(next.size, "in")}): the smallest is ${number(smallest, "in")} in. Before any bearing is bored.`;
};

const straighten: Remedy = ({ accept, place, context, figure }) => {
  const quantity = figure.id === "rod_bend_per_inch" ? "rod_bend" : "rod_twist";
  const over = context.latest(quantity, place)?.reading.over;
  if (over === undefined || accept.high === undefined) return undefined;
  const length = over.unit === "mm" ? over.value / 25.4 : over.value;
  return `Straighten the rod to ${number(accept.high * length, "in")} in or less over ${over.digits} in, and check bend and twist again.`;
};

const straightenCrank: Remedy = ({ accept }) =>
  accept.high === undefined
    ? undefined
    : `Have the crank straightened to a run-out of ${number(2 * accept.high, "in")} in or less; crack-check it again after.`;

export const BEARING_REMEDIES: Readonly<Record<string, RemedyRow>> = {
  main_clearance: { low: shims, high: shims },
  rod_clearance: { low: shims, high: shims },
  bearing_clearance: { low: shims, high: shims },
  crank_end_float: { low: thrustShim, high: thrustShim },
  journal_out_of_round: { high: regrind },
  journal_taper: { high: regrind },
  rod_bend_per_inch: { high: straighten },
  rod_twist_per_inch: { high: straighten },
  crank_bend: { high: straightenCrank },
};
