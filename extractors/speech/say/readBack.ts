// A reading as it is said back: place, value, what the rules make of it. "two top, twelve thou".

import type { Reading } from "../../../shared/events/reading.ts";
import { type Place, toldSlots } from "../../../shared/places/places.ts";
import { slotRow } from "../../../shared/places/slots.ts";
import { QUANTITIES } from "../../../shared/quantities/registry.ts";
import type { UnitSystem } from "../../../shared/spec/sizes.ts";
import { UNITS } from "../../../shared/units/units.ts";
import { cardinal, decimalWords, digitByDigit } from "./numberWords.ts";
import { spokenForms } from "./spokenForms.ts";

type Said = Pick<Reading, "quantity" | "place" | "unit" | "digits" | "do">;

/** A place as said back: "two top", "main two", "rod two nut B". */
export function placeWords(place: Place): string {
  const words = toldSlots(place).map(([slot, value]) => {
    const text =
      typeof value === "number" ? cardinal(value) : value.length === 1 ? value.toUpperCase() : value.replaceAll("_", " ");
    const { noun } = slotRow(slot);
    return noun === undefined ? text : `${noun} ${text}`;
  });
  return words.join(" ");
}

/**
 * The value as said back, unit and sign included: "twelve thou", "two tenths tight", "three eight eight four one".
 * In a metric shop a hundredth is one of a millimetre and needs no more words.
 */
export function valueWords(reading: Said, system: UnitSystem = "inch"): string {
  const { digits, unit, quantity } = reading;
  const sign = signWord(digits, QUANTITIES[quantity].sign);
  const small = system === "metric" && unit === "mm" ? hundredths(digits.replace("-", "")) : undefined;
  return [small ?? figureWords(reading), sign].filter((word) => word !== "").join(" ") || `${digits} ${unit}`;
}

/** "five hundredths" of millimetres below one, told to the hundredth; undefined for others. */
function hundredths(size: string): string | undefined {
  const [, tail] = /^0\.(\d{2})$/.exec(size) ?? [];
  if (tail === undefined) return undefined;
  return `${cardinal(Number(tail))} ${Number(tail) === 1 ? "hundredth" : "hundredths"}`;
}

function figureWords({ digits, unit, quantity }: Said): string {
  const size = digits.replace("-", "");
  if (unit === "in") {
    const form = spokenForms(quantity, size, unit)[0];
    if (form !== undefined) return form;
  }
  const whole = Number(size);
  const words =
    Number.isInteger(whole) && !size.includes(".")
      ? whole < 1_000_000
        ? cardinal(whole)
        : digitByDigit(size)
      : decimalWords(size, "oh", "");
  return `${words} ${UNITS[unit].said[whole === 1 ? 0 : 1]}`;
}

function signWord(digits: string, rule: (typeof QUANTITIES)[Reading["quantity"]]["sign"]): string {
  if (Number(digits) === 0 || rule === "never") return "";
  const negative = digits.startsWith("-");
  switch (rule) {
    case "fit":
      return negative ? "tight" : "loose";
    case "deck":
      return negative ? "below" : "above";
    case "oversize":
      return "over";
    case "undersize":
      return "under";
    case "deviation":
      return negative ? "short" : "long";
    default:
      return "";
  }
}

/** A verdict as it is added to a read-back. */
export interface Verdict {
  readonly verdict: "pass" | "warn" | "fail" | "unknown";
  readonly why: string;
}

/**
 * What is said back after a reading: place and value; a reading that waits asks for the yes; a bad verdict is added.
 */
export function readBack(reading: Said, finding?: Verdict): string {
  const place = placeWords(reading.place);
  const value = `${place === "" ? QUANTITIES[reading.quantity].said : place}, ${valueWords(reading)}`;
  if (reading.do === "confirm")
    return `${QUANTITIES[reading.quantity].said} ${place === "" ? "" : `${place}, `}${valueWords(reading)}. Confirm?`.replace(
      /\s+/g,
      " ",
    );
  if (finding === undefined || finding.verdict === "pass" || finding.verdict === "unknown") return value;
  return `${value}. ${finding.verdict === "fail" ? "Out of limits" : "Near the limit"}: ${finding.why}`;
}
