// A size read off a gauge digit by digit, its decimal point placed by the engine's nominal.
import type { Quantity } from "../../../shared/quantities/types.ts";
import type { Spec } from "../../../shared/spec/spec.ts";
import type { UnitId } from "../../../shared/units/units.ts";
import { decOf, numberOf } from "../numbers/decimal.ts";
import type { Dec, Figure } from "../types.ts";
import { bandsOf, fitOf, type Interval, inDefaultUnit } from "./band.ts";
import type { Scaled } from "./draft.ts";
import type { Shop } from "./scale.ts";

const MM_PER_INCH = 25.4;
/** A size within this share of the nominal may be that size. */
const SAME_SIZE = 0.15;
/**
 * A read-out of a size under an inch, its point unsaid, must come this near the nominal: "three eight seven five" of a .372
 * stem is as likely another part's 3.875.
 */
const LED_SIZE = 0.02;

function placed(text: string, size: number): Dec | undefined {
  const whole = size >= 1 ? String(Math.trunc(size)).length : 0;
  if (text.length <= whole) return undefined;
  return decOf(whole === 0 ? `.${text}` : `${text.slice(0, whole)}.${text.slice(whole)}`);
}

/** Decimal places the instrument shows, in inches or millimetres. */
function placesNeeded(quantity: Quantity, unit: UnitId): number {
  const inches = quantity.resolution <= 0.0001 ? 4 : quantity.resolution <= 0.001 ? 3 : 2;
  return unit === "mm" ? inches - 2 : inches;
}

function remarks(figure: Figure, dec: Dec, quantity: Quantity, unit: UnitId): string[] {
  if (figure.kind === "mixed" || figure.kind === "fraction") return [];
  const short = placesNeeded(quantity, unit) - dec.s;
  const flags: string[] = [];
  if (short === 1) flags.push("coarse");
  if (short > 1) flags.push("too_coarse");
  return flags;
}

/** Collects readings; of two that come to the same value the first stays. */
class Found {
  readonly list: Scaled[] = [];
  private readonly figure: Figure;
  private readonly quantity: Quantity;

  constructor(figure: Figure, quantity: Quantity) {
    this.figure = figure;
    this.quantity = quantity;
  }

  push(dec: Dec, unit: UnitId, ...flags: string[]): void {
    if (this.list.some((s) => s.unit === unit && numberOf(s.dec) === numberOf(dec))) return;
    const more = remarks(this.figure, dec, this.quantity, unit);
    this.list.push({ dec, unit, implied: true, fit: "far", flags: [...flags, ...more] });
  }
}

/** Readings of a bare figure for a quantity whose size the spec sheet names. */
export function placeReadOut(figure: Figure, quantity: Quantity, spec: Spec, shop: Shop): Scaled[] {
  const bands = bandsOf(spec, quantity.id);
  const own: UnitId = shop.metric ? "mm" : "in";
  const other: UnitId = shop.metric ? "in" : "mm";
  const found = new Found(figure, quantity);
  const inBand = (dec: Dec, unit: UnitId) => fitOf(bands, inDefaultUnit(numberOf(dec), unit, "in"));
  const run = runOf(figure);
  if (run === undefined) {
    if (inBand(figure.dec, own) !== "far") found.push(figure.dec, own);
    // The other system is believed only when the value is right in the band ("ninety-eight point four two").
    if (inBand(figure.dec, other) === "in") found.push(figure.dec, other, "unit_doubt");
    if (found.list.length === 0) found.push(figure.dec, own);
    return found.list;
  }
  for (const unit of [own, other]) placeRun(run, unit, unit === own, bands, found);
  const tail = found.list.length === 0 ? tailOf(run, bands[0]?.nominal) : undefined;
  if (tail !== undefined) found.push(tail, "in", "tail");
  if (found.list.length === 0 && figure.kind === "int" && figure.dec.n < 1000) found.push(figure.dec, own);
  return found.list;
}

/** A run of digits placed by every nominal in one unit; in the other system only right in the band. */
function placeRun(run: string, unit: UnitId, own: boolean, bands: readonly Interval[], found: Found): void {
  for (const band of bands) {
    const size = (band.nominal ?? band.high) * (unit === "mm" ? MM_PER_INCH : 1);
    const dec = placed(run, size);
    if (dec === undefined || (!own && fitOf(bands, inDefaultUnit(numberOf(dec), unit, "in")) !== "in")) continue;
    // Without a nominal the band is below an inch and the point stands before the first digit.
    const near = band.nominal === undefined || Math.abs(numberOf(dec) - size) <= SAME_SIZE * size;
    const lead = band.nominal !== undefined && size < 1 && Math.abs(numberOf(dec) - size) > LED_SIZE * size;
    if (near) found.push(dec, unit, ...(own ? [] : ["unit_doubt"]), ...(lead ? ["placed"] : []));
  }
}

/** Digits of a figure whose point is still to be placed; undefined when it was said with its point. */
function runOf(figure: Figure): string | undefined {
  if (figure.kind === "int" || figure.kind === "digits") return figure.text;
  // "one nine nine seven and a half": half of the last digit said.
  return numberOf(figure.dec) >= 1000 ? String(figure.dec.n) : undefined;
}

/** Only the thou were read ("eight oh five" of 3.805): the nominal's whole inches go before them. */
function tailOf(text: string, nominal: number | undefined): Dec | undefined {
  if (nominal === undefined || nominal < 1 || text.length < 3) return undefined;
  return decOf(`${Math.trunc(nominal)}.${text}`);
}
