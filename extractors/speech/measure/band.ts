// Plausible bands of a quantity on this engine, and how well a value sits in them.

import { QUANTITIES } from "../../../shared/quantities/registry.ts";
import type { Quantity, QuantityId } from "../../../shared/quantities/types.ts";
import { nominalsIn } from "../../../shared/spec/sizes.ts";
import type { Spec } from "../../../shared/spec/spec.ts";
import { UNITS, type UnitId } from "../../../shared/units/units.ts";

export interface Interval {
  readonly low: number;
  readonly high: number;
  /** Nearest nominal size, where the band is placed by one. */
  readonly nominal: number | undefined;
}

const CACHE = new WeakMap<Spec, Map<QuantityId, readonly Interval[]>>();

/** Bands of a quantity in its default unit: one per nominal size of the spec sheet, or one absolute. */
export function bandsOf(spec: Spec, id: QuantityId): readonly Interval[] {
  let byId = CACHE.get(spec);
  if (byId === undefined) {
    byId = new Map();
    CACHE.set(spec, byId);
  }
  let bands = byId.get(id);
  if (bands === undefined) {
    bands = read(spec, QUANTITIES[id]);
    byId.set(id, bands);
  }
  return bands;
}

function read(spec: Spec, quantity: Quantity): readonly Interval[] {
  const { nominal, low, high } = quantity.band;
  if (nominal === undefined) return [{ low, high, nominal: undefined }];
  const sizes = nominalsIn(spec, nominal);
  return sizes.map((size) => ({ low: size + low, high: size + high, nominal: size }));
}

/** A value in `unit` brought to the quantity's default unit, in double precision, for comparing only. */
export function inDefaultUnit(value: number, unit: UnitId, to: UnitId): number {
  if (unit === to) return value;
  const a = UNITS[unit];
  const b = UNITS[to];
  if (a.dimension === "temperature") return unit === "degF" ? ((value - 32) * 5) / 9 : (value * 9) / 5 + 32;
  return (value * Number(a.factor)) / Number(b.factor);
}

/** Relative distance from a nominal within which a read-out is still that size. */
const NEAR_NOMINAL = 0.15;
/** A reading this many times outside an absolute band is not that quantity at all. */
const NEAR_TIMES = 4;

/** How a value in the default unit sits in the quantity's bands. */
export function fitOf(bands: readonly Interval[], value: number): "in" | "near" | "far" {
  let best: "near" | "far" = "far";
  if (bands.length === 0) return "near";
  for (const band of bands) {
    const slack = 1e-9 * Math.max(1, Math.abs(band.high));
    if (value >= band.low - slack && value <= band.high + slack) return "in";
    if (band.nominal !== undefined) {
      if (Math.abs(value - band.nominal) <= NEAR_NOMINAL * band.nominal) best = "near";
    } else {
      const reach = Math.max(Math.abs(band.low), Math.abs(band.high)) * NEAR_TIMES;
      if (Math.abs(value) <= reach && Math.abs(value) >= band.low / NEAR_TIMES) best = "near";
    }
  }
  return best;
}
