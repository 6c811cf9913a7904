// Whether two limit units measure the same thing, by converting one into the other.
import { dimensionOf } from "../../../shared/compute/units.ts";
import type { LimitUnit } from "../../../shared/spec/spec.ts";

export function sameDimension(a: LimitUnit, b: LimitUnit): boolean {
  return dimensionOf(a) === dimensionOf(b);
}
