// A size read off a gauge digit by digit, its decimal point placed by the engine's nominal.
import type { Quantity } from "../../../shared/quantities/types.ts";
import type { Spec } from "../../../shared/spec/spec.ts";
import type { UnitId } from "../../../shared/units/units.ts";
import { decOf, numberOf } from "../numbers/decimal.ts";
import type { Dec, Figure } from "../types.ts";
import { bandsOf, fitOf, inDefaultUnit } from "./band.ts";
import type { Scaled } from "./draft.ts";
import type { Shop } from "./scale.ts";

const MM_PER_INCH = 25.4;
/** A size within this share of the nominal may be that size. */
const SAME_SIZE = 0.15;

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

/** Readings of a bare figure for a quantity whose size the spec sheet names. */
export function placeReadOut(figure: Figure, quantity: Quantity, spec: Spec, shop: Shop): Scaled[] {
  const bands = bandsOf(spec, quantity.id);
  const out: Scaled[] = [];
  const push = (dec: Dec, unit: UnitId, ...flags: string[]) => {
    const same = out.find((s) => s.unit === unit && s.dec.n * 10 ** (dec.s - s.dec.s) === dec.n);
    if (same === undefined) {
      out.push({ dec, unit, implied: true, fit: "far", flags: [...flags, ...remarks(figure, dec, quantity, unit)] });
    }
  };
  const units: readonly UnitId[] = shop.metric ? ["mm", "in"] : ["in", "mm"];
  if (figure.kind === "int" || figure.kind === "digits") {
    for (const unit of units) {
      for (const band of bands) {
        const size = (band.nominal ?? band.high) * (unit === "mm" ? MM_PER_INCH : 1);
        const dec = placed(figure.text, size);
        // Without a nominal the band is below an inch and the point stands before the first digit.
        if (dec !== undefined && (band.nominal === undefined || Math.abs(numberOf(dec) - size) <= SAME_SIZE * size)) {
          push(dec, unit, ...(unit === units[0] ? [] : ["unit_doubt"]));
        }
      }
    }
    if (out.length === 0) tails(figure.text, bands[0]?.nominal, push);
    if (out.length === 0 && figure.kind === "int" && figure.dec.n < 1000) push(figure.dec, units[0] ?? "in");
    return out;
  }
  for (const unit of units) {
    const fit = fitOf(bands, inDefaultUnit(numberOf(figure.dec), unit, "in"));
    if (fit !== "far") push(figure.dec, unit, ...(unit === units[0] ? [] : ["unit_doubt"]));
  }
  if (out.length === 0) push(figure.dec, units[0] ?? "in");
  return out;
}

/** Only the thou were read ("eight oh five" of 3.805): the nominal's whole inches go before them. */
function tails(text: string, nominal: number | undefined, push: (dec: Dec, unit: UnitId, ...flags: string[]) => void): void {
  if (nominal === undefined || nominal < 1 || text.length < 3) return;
  const dec = decOf(`${Math.trunc(nominal)}.${text}`);
  if (dec !== undefined) push(dec, "in", "tail");
}
