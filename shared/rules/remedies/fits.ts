// Pins in their bushes and bosses.
import { minus, plus } from "../../compute/measure.ts";
import { nominal, valueIn } from "../figures/pick.ts";
import { number } from "../text.ts";
import type { Remedy, RemedyRow } from "./types.ts";

const pinSize = ({ place, context }: Parameters<Remedy>[0]): number | undefined => {
  const pin = place.cylinder === undefined ? undefined : context.latest("pin_diameter", { cylinder: place.cylinder });
  return pin === undefined ? nominal(context.spec, "pin") : valueIn(pin, "in");
};

const newBush: Remedy = (trouble) => {
  const pin = pinSize(trouble);
  const { low, high } = trouble.accept;
  if (pin === undefined || low === undefined || high === undefined) return undefined;
  return `Press in a new bush and ream it to ${number(plus(pin, low), "in")} to ${number(plus(pin, high), "in")} in for this pin; check the rod's bend and twist after.`;
};

const ream: Remedy = (trouble) => {
  const pin = pinSize(trouble);
  const { low } = trouble.accept;
  if (low === undefined) return undefined;
  const to = pin === undefined ? "" : ` to ${number(plus(pin, low), "in")} in`;
  return `Ease the hole by ${number(minus(low, trouble.value), "in")} in${to}; a tight pin drags the piston.`;
};

const largerPin: Remedy = ({ value, accept }) =>
  accept.high === undefined
    ? undefined
    : `Fit a pin at least ${number(minus(value, accept.high), "in")} in larger, or ream both for the next oversize pin.`;

export const FIT_REMEDIES: Readonly<Record<string, RemedyRow>> = {
  pin_fit_bush: { low: ream, high: newBush },
  pin_fit_boss: { low: ream, high: largerPin },
};
