// A sheet's figures as measures: each in the unit it names, a bare one in the sheet's own system. The one door to them for all who
// work with sizes, so that no figure is used in a unit it was not written in.
import { type ComputeUnit, convertMeasure, dimensionOf, metricOf, unitNamed } from "../compute/units.ts";
import type { NominalKey } from "../quantities/types.ts";
import { isUnitId, type UnitId } from "../units/units.ts";

/** What a bare figure is in: an engine has one, and everything about it is said and shown in it. */
export const UNIT_SYSTEMS = ["inch", "metric"] as const;
export type UnitSystem = (typeof UNIT_SYSTEMS)[number];

/** The part of a sheet that its figures need; sheets of before metric engines name no system and are in inches. */
export interface Sized {
  readonly units?: UnitSystem | undefined;
  readonly nominals: Readonly<Partial<Record<NominalKey, readonly string[] | undefined>>>;
  readonly figures: Readonly<Record<string, { readonly value: string; readonly unit: string }>>;
}

export const systemOf = ({ units }: Pick<Sized, "units">): UnitSystem => units ?? "inch";
export const isMetric = (sheet: Pick<Sized, "units">): boolean => systemOf(sheet) === "metric";

/** Step of the last digit of decimal text: .001 of "0.280", 1 of "35". */
export const stepOf = (digits: string): number => 10 ** -(digits.split(".")[1]?.length ?? 0);

/** A bare length's unit on a sheet. */
export const lengthUnit = (sheet: Pick<Sized, "units">): "in" | "mm" => (isMetric(sheet) ? "mm" : "in");

/** Decimal text, with `mm` or `in` behind it where it is not in the sheet's own system: `68.00`, `68.00 mm`. */
export const LENGTH_TEXT = /^(-?\d*\.?\d+) ?(in|mm)?$/;

/**
 * A length of the sheet.
 * @returns its value in `unit`, to 15 significant digits; not a number for text that is no length
 */
export function lengthIn(text: string, sheet: Pick<Sized, "units">, unit: "in" | "mm" = "in"): number {
  const { digits, from } = readLength(text, sheet);
  const value = Number(digits);
  return Number.isFinite(value) ? convertMeasure(value, from, unit) : Number.NaN;
}

function readLength(text: string, sheet: Pick<Sized, "units">) {
  const [, digits, named] = LENGTH_TEXT.exec(text) ?? [];
  return { digits, from: (named as "in" | "mm" | undefined) ?? lengthUnit(sheet) };
}

/** Step of the last digit of a length of the sheet, in inches: what its writer left open. */
export function stepIn(text: string, sheet: Pick<Sized, "units">): number {
  const { digits = "", from } = readLength(text, sheet);
  return convertMeasure(stepOf(digits), from, "in");
}

/** The nominal sizes of one kind in `unit`, standard first. */
export const nominalsIn = (sheet: Sized, key: NominalKey, unit: "in" | "mm" = "in"): number[] =>
  (sheet.nominals[key] ?? []).map((text) => lengthIn(text, sheet, unit));

/** The unit a figure of the sheet is written in: as it is spelled, or nothing where nobody knows the spelling. */
export const figureUnit = (spelled: string): ComputeUnit | undefined =>
  spelled.trim() === "" ? "ratio" : unitNamed(spelled.trim());

/** Figures that computations take from a sheet, and the unit in which they take them. Others may stand there and are only shown. */
export const FIGURE_UNITS: Readonly<Record<string, ComputeUnit>> = {
  gasket_area: "in2",
  gasket_thickness: "in",
  head_recess: "in",
  spring_length: "in",
  rod_bolt_grip: "in",
  main_bolt_grip: "in",
  head_bolt_grip: "in",
  shim_spare: "in",
  shim_lamination: "in",
};

/**
 * A figure of the sheet by its name, converted from the unit it is written in.
 * @returns its value in the unit that computations take it in; undefined where the sheet has none, or none of that dimension
 */
export const figureOf = (sheet: Sized, name: string): number | undefined => taken(sheet, name, Number);

/** What `of` makes of a figure's digits, in the unit that computations take it in. */
function taken(sheet: Sized, name: string, of: (digits: string) => number): number | undefined {
  const row = sheet.figures[name];
  const to = FIGURE_UNITS[name];
  const from = row === undefined ? undefined : figureUnit(row.unit);
  if (row === undefined || to === undefined || from === undefined || dimensionOf(from) !== dimensionOf(to)) return undefined;
  return convertMeasure(of(row.value), from, to);
}

/** Step of the last digit of a figure of the sheet, in the unit that computations take it in; 0 where the sheet has none. */
export const figureStep = (sheet: Sized, name: string): number => taken(sheet, name, stepOf) ?? 0;

/** The unit a figure is taken in at the bench of such an engine: the registry's own, or its metric equal. */
export const benchUnit = (unit: UnitId, sheet: Pick<Sized, "units">): UnitId => {
  const metric = isMetric(sheet) ? metricOf(unit) : unit;
  return isUnitId(metric) ? metric : unit;
};
