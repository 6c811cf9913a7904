// What a sentence's tokens become once every number has its part to play: a place, a value, or neither.
import type { Noun, ValueExpr } from "../types.ts";

export type Element =
  | {
      readonly t: "place";
      /** The noun it stands behind; undefined for a number with none. */
      readonly noun: Noun | undefined;
      readonly n: number;
      readonly from: number;
      readonly to: number;
    }
  | { readonly t: "value"; readonly expr: ValueExpr; readonly from: number; readonly to: number }
  | { readonly t: "word"; readonly from: number; readonly to: number };

/** One way to give the numbers of a run their parts, with what speaks against it. */
export interface Roles {
  readonly elements: readonly Element[];
  readonly cost: number;
}

/** A value as an element. */
export function valueElement(expr: ValueExpr): Element {
  return { t: "value", expr, from: expr.from, to: expr.to };
}
