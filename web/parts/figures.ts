// A reading's figure as it stands on the page: the digits that were spoken, the unit, and the word that its sign has at the bench.

import type { Reading } from "../../shared/events/reading.ts";
import { QUANTITIES } from "../../shared/quantities/registry.ts";
import type { SignRule } from "../../shared/quantities/types.ts";
import type { Spec } from "../../shared/spec/spec.ts";
import { UNITS } from "../../shared/units/units.ts";

export interface FigureText {
  /** `.0125`, `3.8841`, `−.0003`. */
  readonly digits: string;
  readonly unit: string;
  /** `tight`, `over`, `below the deck`: empty when the sign says nothing of its own. */
  readonly way: string;
}

/** Words for a value above and below nought. */
const WAYS: Readonly<Record<SignRule, readonly [string, string]>> = {
  never: ["", ""],
  fit: ["loose", "tight"],
  deck: ["above deck", "below deck"],
  oversize: ["over", "under"],
  undersize: ["over", "under"],
  deviation: ["long", "short"],
};

/** Digits as a machinist writes them: no nought before the point of inches, a true minus sign. */
export function bareDigits(digits: string, unit: string = "in"): string {
  const bare = /^(mm|um|kPa|N|N_m)$/.test(unit) ? digits : digits.replace(/^(-?)0+(?=\.)/, "$1");
  return bare.replace(/^-/, "−");
}

/** A sentence to start from, in the engine's own words for small lengths. */
export const exampleLine = ({ units, engine }: Pick<Spec, "units" | "engine">): string =>
  `ring gap ${engine.cylinders > 1 ? "two" : "one"} top, ${units === "metric" ? "thirty hundredths" : "twelve thou"}`;

/** The figure of a reading. */
export function figureOf(reading: Reading): FigureText {
  const quantity = QUANTITIES[reading.quantity];
  const [above, below] = quantity.sign === "deviation" && !/length/.test(reading.quantity) ? ["", ""] : WAYS[quantity.sign];
  const way = reading.value > 0 ? above : reading.value < 0 ? below : "";
  // A word that carries the sign makes the minus a second one.
  const digits = way === "" ? reading.digits : reading.digits.replace(/^-/, "");
  return { digits: bareDigits(digits, reading.unit), unit: UNITS[reading.unit].label, way };
}

/** The figure as one line of text. */
export function figureLine(reading: Reading): string {
  const { digits, unit, way } = figureOf(reading);
  const over =
    reading.over === undefined
      ? ""
      : ` at ${bareDigits(reading.over.digits, reading.over.unit)} ${UNITS[reading.over.unit].label}`;
  return `${digits} ${unit}${way === "" ? "" : ` ${way}`}${over}`;
}
