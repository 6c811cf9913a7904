// Fits: a hole less what goes into it. Clearance is positive, interference negative.
import { COMMON_PRACTICE, computation, GEOMETRY, inches, input } from "./computation.ts";
import { ABOVE_ZERO, TEMPERATURE } from "./domain.ts";
import { celsius, type Inch, inch, minus, plus } from "./measure.ts";
import { lengthAtReference, MATERIAL_NAMES, materialNamed } from "./thermal.ts";

/** Hole less shaft, signed: pin in bush or boss, valve stem in guide, piston in bore. */
export function signedFit(hole: Inch, shaft: Inch): Inch {
  return minus(hole, shaft);
}

/** Clearance found by a feeler strip that draws at the maker's pull: feeler plus .001 in at 6 lbf (TM 5-4210-233-14&P-2). */
export function feelerPullClearance(feeler: Inch): Inch {
  return plus(feeler, inch(0.001));
}

export const FIT_COMPUTATIONS = [
  computation({
    id: "pin-fit",
    title: "Pin fit",
    inputs: { hole: input.number("in", "bush or boss bore", ABOVE_ZERO), pin: input.number("in", "pin diameter", ABOVE_ZERO) },
    unit: "in",
    formula: "fit = hole - pin; positive is clearance, negative interference",
    source: GEOMETRY,
    run: (x) => ({ value: signedFit(x.hole, x.pin) }),
  }),
  computation({
    id: "piston-clearance",
    title: "Piston to wall",
    inputs: {
      bore: input.number("in", "bore across the thrust axis", ABOVE_ZERO),
      skirt: input.number("in", "skirt diameter, square to the pin", ABOVE_ZERO),
      "bore-temperature": input.optional("degC", "temperature the bore was read at; 20 when left out", TEMPERATURE),
      "piston-temperature": input.optional("degC", "temperature the piston was read at; 20 when left out", TEMPERATURE),
      "bore-material": input.optionalText("grey_iron when left out", MATERIAL_NAMES),
      "piston-material": input.optionalText("grey_iron when left out", MATERIAL_NAMES),
    },
    unit: "in",
    formula: "clearance = bore - skirt, both at 20 degC",
    source: "ISO 1:2022 (reference temperature 20 degC)",
    run: (x) => {
      const bore = lengthAtReference(
        x.bore,
        x["bore-temperature"] ?? celsius(20),
        materialNamed(x["bore-material"] ?? "grey_iron"),
      );
      const skirt = lengthAtReference(
        x.skirt,
        x["piston-temperature"] ?? celsius(20),
        materialNamed(x["piston-material"] ?? "grey_iron"),
      );
      return { value: signedFit(bore, skirt), parts: { bore_at_20: inches(bore), skirt_at_20: inches(skirt) } };
    },
  }),
  computation({
    id: "guide-clearance",
    title: "Valve stem in its guide",
    inputs: { guide: input.number("in", "guide bore", ABOVE_ZERO), stem: input.number("in", "stem diameter", ABOVE_ZERO) },
    unit: "in",
    formula: "clearance = guide - stem",
    source: GEOMETRY,
    run: (x) => ({ value: signedFit(x.guide, x.stem) }),
  }),
  computation({
    id: "feeler-pull",
    title: "Piston clearance by feeler pull",
    inputs: { feeler: input.number("in", "feeler that draws at 6 lbf", ABOVE_ZERO) },
    unit: "in",
    formula: "clearance = feeler + .001 in at a pull of 6 lbf",
    source: "TM 5-4210-233-14&P-2",
    run: (x) => ({ value: feelerPullClearance(x.feeler) }),
  }),
  computation({
    id: "spread",
    title: "Spread of a set",
    inputs: { readings: input.list("any", "one reading a cylinder", 2, 64) },
    unit: "any",
    formula: "spread = largest - smallest; percent = spread / largest",
    source: COMMON_PRACTICE,
    run: (x) => {
      const top = Math.max(...x.readings);
      const spread = minus(top, Math.min(...x.readings));
      return { value: spread, parts: { percent_of_largest: top === 0 ? 0 : Number(((100 * spread) / top).toPrecision(12)) } };
    },
  }),
];
