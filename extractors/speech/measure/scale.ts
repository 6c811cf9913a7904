// A value as said, scaled for one quantity: thou, tenths, read-outs placed by the nominal, units that wait for the subject.
import { QUANTITIES } from "../../../shared/quantities/registry.ts";
import type { Quantity, QuantityId } from "../../../shared/quantities/types.ts";
import type { Spec } from "../../../shared/spec/spec.ts";
import { UNITS, type UnitId } from "../../../shared/units/units.ts";
import { add, numberOf, shift, times } from "../numbers/decimal.ts";
import type { Dec, Figure, UnitWord, ValueExpr } from "../types.ts";
import { bandsOf, fitOf, inDefaultUnit } from "./band.ts";
import type { Scaled } from "./draft.ts";
import { placeReadOut } from "./readOut.ts";

export interface Shop {
  readonly metric: boolean;
  /** Whether the shop's system was said, or is only the default. */
  readonly set: boolean;
}

interface Meaning {
  readonly unit: UnitId;
  /** Decimal places the figure moves, or a whole factor. */
  readonly places?: number;
  readonly factor?: number;
  readonly flags?: readonly string[];
}

const inch = (places: number): Meaning => ({ unit: "in", places });
const mm = (places: number, ...flags: string[]): Meaning => ({ unit: "mm", places, flags });

/** Units that mean the same whatever is measured. */
const FIXED: Readonly<Partial<Record<UnitWord, Meaning>>> = {
  thou: inch(3),
  thousandth: inch(3),
  tenthou: inch(4),
  hundredthou: { unit: "in", places: 5, flags: ["too_fine"] },
  cm: { unit: "mm", factor: 10 },
  kg: { unit: "g", factor: 1000 },
  bar: { unit: "kPa", factor: 100 },
  flat: { unit: "deg", factor: 60 },
};

/** Meanings of a unit word for this quantity and shop; none when the quantity cannot be said in it. */
function meanings(word: UnitWord, quantity: Quantity, shop: Shop): readonly Meaning[] {
  const fixed = FIXED[word];
  if (fixed !== undefined) return word === "thousandth" && shop.metric ? [mm(3, "unit_doubt"), inch(3)] : [fixed];
  switch (word) {
    case "tenth":
      return [shop.metric ? mm(1) : inch(4)];
    case "hundredth":
      // In an inch shop a hundredth is said of millimetres as often as of inches.
      return shop.metric ? [mm(2)] : [mm(2, "unit_doubt"), { ...inch(2), flags: ["unit_doubt"] }];
    case "mil":
      return shop.metric ? [mm(0, "unit_doubt")] : [{ ...inch(3), flags: [shop.set ? "unit_doubt" : "unit_ask"] }];
    case "pound":
      return pounds(quantity);
    case "kilo":
      return quantity.unit === "g" ? [{ unit: "g", factor: 1000 }] : [];
    case "degree":
      if (quantity.unit === "deg") return [{ unit: "deg" }];
      return quantity.unit === "degC"
        ? [
            { unit: "degC", flags: ["unit_doubt"] },
            { unit: "degF", flags: ["unit_doubt"] },
          ]
        : [];
    case "inoz":
      return [];
    default:
      return [{ unit: word as UnitId }];
  }
}

function pounds(quantity: Quantity): readonly Meaning[] {
  if (quantity.unit === "ft_lbf") return [{ unit: "ft_lbf", flags: ["pounds_doubt"] }];
  if (quantity.unit === "psi") return [{ unit: "psi" }];
  return quantity.unit === "lbf" ? [{ unit: "lbf" }] : [];
}

function applied(dec: Dec, meaning: Meaning): Dec {
  if (meaning.factor !== undefined) return times(dec, meaning.factor);
  return meaning.places === undefined ? dec : shift(dec, meaning.places);
}

/** Fit of a decimal in a unit. */
export function rate(dec: Dec, unit: UnitId, quantity: Quantity, spec: Spec): "in" | "near" | "far" {
  return fitOf(bandsOf(spec, quantity.id), inDefaultUnit(numberOf(dec), unit, quantity.unit));
}

function withUnit(expr: ValueExpr, quantity: Quantity, shop: Shop): Scaled[] {
  const first = expr.parts[0];
  if (first?.unit === undefined) return [];
  const out: Scaled[] = [];
  for (const meaning of meanings(first.unit, quantity, shop)) {
    if (UNITS[meaning.unit].dimension !== UNITS[quantity.unit].dimension) continue;
    let dec = applied(first.figure.dec, meaning);
    let sum = true;
    for (const part of expr.parts.slice(1)) {
      const more: Meaning | undefined =
        part.unit === first.unit ? meaning : part.unit === undefined ? undefined : meanings(part.unit, quantity, shop)[0];
      if (more === undefined || more.unit !== meaning.unit) sum = false;
      else dec = add(dec, applied(part.figure.dec, more));
    }
    if (sum) out.push({ dec, unit: meaning.unit, implied: false, fit: "far", flags: meaning.flags ?? [] });
  }
  return out;
}

/** Default unit of a plain figure in a metric shop. */
const METRIC_UNIT: Readonly<Partial<Record<UnitId, UnitId>>> = {
  in: "mm",
  ft_lbf: "N_m",
  psi: "kPa",
  lbf: "N",
  lbf_per_in: "N_per_mm",
};

function plain(figure: Figure, quantity: Quantity, shop: Shop): Scaled[] {
  const units: UnitId[] = [quantity.unit];
  const metric = METRIC_UNIT[quantity.unit];
  if (shop.metric && metric !== undefined) units.unshift(metric);
  if (quantity.unit === "degC") units.push("degF");
  return units.map((unit, k) => ({
    dec: figure.dec,
    unit,
    implied: true,
    fit: "far" as const,
    flags: k > 0 || quantity.unit === "degC" ? ["unit_doubt"] : [],
  }));
}

/** A figure in a unit that was not said. */
function of(dec: Dec, unit: UnitId, ...flags: string[]): Scaled {
  return { dec, unit, implied: true, fit: "far", flags };
}

function bareLength(figure: Figure, quantity: Quantity, spec: Spec, shop: Shop): Scaled[] {
  const { dec, kind } = figure;
  if (dec.n === 0 && kind !== "digits") return [of(dec, shop.metric ? "mm" : "in")];
  if (kind === "fraction")
    return dec.s >= 3 || quantity.scale === "fraction" || quantity.scale === "inch_digits" ? [of(dec, "in")] : [];
  if (quantity.scale === "inch_digits") return placeReadOut(figure, quantity, spec, shop);
  const out: Scaled[] = [];
  const pointed = kind === "decimal" && dec.n < 10 ** dec.s;
  if (shop.metric && kind === "decimal") out.push(of(dec, "mm"));
  if (kind === "decimal" || kind === "mixed") out.push(of(dec, "in"));
  // "oh oh one five": a read-out that leads with oh has its point before the first oh.
  if (kind === "digits" && figure.text.startsWith("0")) {
    const zeros = figure.text.startsWith("00");
    const read = { n: dec.n, s: figure.text.length };
    return [of(read, shop.metric ? "mm" : "in", ...(zeros ? [] : ["placed"]))];
  }
  const words = quantity.scale === "small_word" || quantity.scale === "tenths_word";
  const inWords = words || shop.metric ? ["scale_ask"] : [];
  if (quantity.scale === "fraction" && kind === "int") out.push(of(dec, "in"));
  // Nobody reads thou to three places: such a figure is inches with its point, or another quantity's.
  if (dec.s <= 2) {
    const doubt = kind === "digits" || pointed ? ["unit_doubt"] : [];
    out.push(of(shift(dec, 3), "in", ...inWords, ...doubt));
  }
  return out;
}

/**
 * Every way a value can be scaled for a quantity, best first; empty when it cannot be one.
 */
export function scale(expr: ValueExpr, id: QuantityId, spec: Spec, shop: Shop, sign: 1 | -1): Scaled[] {
  const quantity = QUANTITIES[id];
  const first = expr.parts[0];
  if (first === undefined) return [];
  let found: Scaled[];
  if (first.unit !== undefined) found = withUnit(expr, quantity, shop);
  else if (quantity.unit === "in") found = bareLength(first.figure, quantity, spec, shop);
  else found = plain(first.figure, quantity, shop);
  // "three eight eight three two inches": read off digit by digit, with the unit said after.
  const run = expr.parts.length === 1 && first.figure.kind === "digits";
  if (run && quantity.scale === "inch_digits" && (first.unit === "in" || first.unit === "mm")) {
    const unit = first.unit;
    const placed = placeReadOut(first.figure, quantity, spec, { metric: unit === "mm", set: true });
    found.push(...placed.filter((s) => s.unit === unit).map((s) => ({ ...s, implied: false })));
  }
  const rated = found.map((s): Scaled => {
    const dec = sign < 0 ? { n: s.dec.n === 0 ? 0 : -s.dec.n, s: s.dec.s } : s.dec;
    return { ...s, dec, fit: rate(dec, s.unit, quantity, spec) };
  });
  // Stable: of equal fits the first stays the first.
  return rated.sort((a, b) => RANK[a.fit] - RANK[b.fit]);
}

const RANK = { in: 0, near: 1, far: 2 } as const;
