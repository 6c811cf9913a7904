// How much clearance a piston needs cold so that some is left hot: by what piston and block are made of.
import { type Celsius, celsius, type Inch, inch, plus, tidy } from "../compute/measure.ts";
import { coldClearance, MATERIAL_NAMES, materialNamed } from "../compute/thermal.ts";
import type { Spec } from "./spec.ts";

/** Skirt and cylinder wall when the engine works hard, water-cooled (assumptions of ours, no source). */
export const RUNNING: { readonly piston: Celsius; readonly block: Celsius } = { piston: celsius(110), block: celsius(85) };

/** What a bore loses by heat, on the diameter; undefined where the table has not got one of the materials. */
export function lostByHeat(bore: Inch, { piston, block }: Spec["materials"]): Inch | undefined {
  if (!MATERIAL_NAMES.includes(piston) || !MATERIAL_NAMES.includes(block)) return undefined;
  return coldClearance(
    inch(0),
    bore,
    { material: materialNamed(piston), temperature: RUNNING.piston },
    { material: materialNamed(block), temperature: RUNNING.block },
  );
}

/** Usual for cast iron in cast iron, and what must at least be left hot, by the inch of bore (common practice, no source). */
const IRON = inch(0.00075);
const LEFT_HOT = inch(0.00025);
/** How wide the range is. */
const WIDE = inch(0.0004);

/** Clearance by the inch of bore as decimal text; undefined for a material that is not known. */
export function pistonClearancePerInch(
  materials: Spec["materials"],
): { readonly low: string; readonly high: string } | undefined {
  const lost = lostByHeat(inch(1), materials);
  if (lost === undefined) return undefined;
  // Up to the next hundred-thousandth, so that rounding takes nothing off.
  const low = Math.ceil(tidy(Math.max(IRON, plus(LEFT_HOT, lost)) * 1e5)) / 1e5;
  return { low: low.toFixed(5), high: plus(inch(low), WIDE).toFixed(5) };
}
