// Pins in their bushes and bosses.
import { minus, plus } from "../../compute/measure.ts";
import { nominal, valueIn } from "../figures/pick.ts";
import { number, figure as text } from "../text.ts";
import type { Remedy, RemedyRow } from "./types.ts";

const pinSize = ({ place, context }: Parameters<Remedy>[0]): number | undefined => {
  const pin = place.cylinder === undefined ? undefined : context.latest("pin_diameter", { cylinder: place.cylinder });
  return pin === undefined ? nominal(context.spec, "pin") : valueIn(pin, "in");
};

/** The rod holds the pin: it turns in the bosses, and nothing turns in the rod. */
const isClamped = ({ context }: Parameters<Remedy>[0]): boolean => context.spec.engine.pin === "rod";

const newBush: Remedy = (trouble) => {
  if (isClamped(trouble))
    return "The rod clamps this pin, so no bush runs on it: look at the eye and its clamp bolt, and take the fit in the piston.";
  const pin = pinSize(trouble);
  const { low, high } = trouble.accept;
  if (pin === undefined || low === undefined || high === undefined) return undefined;
  return `Press in a new bush and ream it to ${number(plus(pin, low), "in")} to ${text(plus(pin, high), "in")} for this pin; check the rod's bend and twist after.`;
};

const ream: Remedy = (trouble) => {
  const pin = pinSize(trouble);
  const { low } = trouble.accept;
  if (low === undefined) return undefined;
  const to = pin === undefined ? "" : ` to ${text(plus(pin, low), "in")}`;
  const why = isClamped(trouble) ? "the rod clamps the pin, so it must turn in the piston" : "a tight pin drags the piston";
  return `Ease the hole by ${text(minus(low, trouble.value), "in")}${to}; ${why}.`;
};

const largerPin: Remedy = ({ value, accept }) =>
  accept.high === undefined
    ? undefined
    : `Fit a pin at least ${text(minus(value, accept.high), "in")} larger, or ream both for the next oversize pin.`;

export const FIT_REMEDIES: Readonly<Record<string, RemedyRow>> = {
  pin_fit_bush: { low: ream, high: newBush },
  pin_fit_boss: { low: ream, high: largerPin },
};
