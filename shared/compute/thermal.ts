// Lengths at temperature: correction to the reference 20 degrees Celsius, and cold clearance for a wanted hot one.
import { anyOf, computation, input } from "./computation.ts";
import { ABOVE_ZERO, TEMPERATURE } from "./domain.ts";
import { type Celsius, celsius, type Inch, inch, minus, plus, tidy } from "./measure.ts";

/** ISO 1:2022: the standard reference temperature for geometrical specification is 20 degrees Celsius. */
export const REFERENCE = celsius(20);

export interface Material {
  readonly id: string;
  readonly label: string;
  /** Linear expansion, 1/degC near room temperature. */
  readonly expansion: number;
  readonly source: string;
}

const CALLISTER = "Callister, Fundamentals of Materials Science and Engineering, 3rd ed., Table B.6";

/** One set of coefficients, used throughout: handbooks differ by some 5 %, which is far below the corrections they serve. */
export const MATERIALS: readonly Material[] = [
  { id: "grey_iron", label: "grey cast iron", expansion: 10.8e-6, source: "handbook value 6.0 x 10^-6 per degF" },
  {
    id: "steel",
    label: "steel",
    expansion: 11.5e-6,
    source: "Uncertainties in Dimensional Measurements Made at Nonstandard Temperatures, J. Res. NIST 99, 31 (1994)",
  },
  {
    id: "aluminium",
    label: "aluminium, pure",
    expansion: 23.1e-6,
    source: "Uncertainties in Dimensional Measurements Made at Nonstandard Temperatures, J. Res. NIST 99, 31 (1994)",
  },
  {
    id: "piston_alloy",
    label: "aluminium piston alloy (332.0)",
    expansion: 20.7e-6,
    source: "ASM Metals Handbook, vol. 2, properties of cast aluminium alloys: 332.0, from memory",
  },
  {
    id: "low_expansion_piston_alloy",
    label: "aluminium piston alloy with more silicon and nickel (336.0)",
    expansion: 18.9e-6,
    source: "ASM Metals Handbook, vol. 2, properties of cast aluminium alloys: 336.0, from memory",
  },
  { id: "cast_aluminium", label: "general casting alloy (356.0)", expansion: 21.5e-6, source: CALLISTER },
  { id: "bronze", label: "bearing bronze (C93200)", expansion: 18e-6, source: CALLISTER },
  {
    id: "babbitt",
    label: "babbitt, tin base",
    expansion: 23e-6,
    source: `a little under the 23.8 of tin itself (${CALLISTER}), from memory`,
  },
];

const SAME: Readonly<Record<string, string>> = {
  cast_iron: "grey_iron",
  iron: "grey_iron",
  gray_iron: "grey_iron",
  grey_cast_iron: "grey_iron",
  gray_cast_iron: "grey_iron",
  aluminum: "aluminium",
  cast_aluminum: "cast_aluminium",
  aluminium_alloy: "piston_alloy",
  aluminum_alloy: "piston_alloy",
};
export const MATERIAL_NAMES: readonly string[] = [...MATERIALS.map((material) => material.id), ...Object.keys(SAME)];

/** A material by name. @throws RangeError when the table has none of that name */
export function materialNamed(name: string): Material {
  const id = SAME[name] ?? name;
  const found = MATERIALS.find((material) => material.id === id);
  if (found === undefined) throw new RangeError(`Expected one of ${MATERIAL_NAMES.join(", ")} for a material, got "${name}"`);
  return found;
}

/**
 * A length read at a temperature, as it is at 20 degC.
 * With a gauge set on a master of `gauge` material at the same temperature, only the difference of the two expansions is taken off.
 */
export function lengthAtReference<T extends number>(length: T, temperature: Celsius, part: Material, gauge?: Material): T {
  const rise = temperature - REFERENCE;
  const gaugeGrowth = gauge === undefined ? 1 : 1 + gauge.expansion * rise;
  return tidy(((length * gaugeGrowth) / (1 + part.expansion * rise)) as T);
}

/** Cold clearance on the diameter that leaves `hot` clearance when piston and block are at their running temperatures. */
export function coldClearance(
  hot: Inch,
  bore: Inch,
  piston: { readonly material: Material; readonly temperature: Celsius },
  block: { readonly material: Material; readonly temperature: Celsius },
): Inch {
  const growth =
    piston.material.expansion * (piston.temperature - REFERENCE) - block.material.expansion * (block.temperature - REFERENCE);
  return tidy(plus(hot, inch(tidy(bore * growth))));
}

export const THERMAL_COMPUTATIONS = [
  computation({
    id: "temperature-correction",
    title: "Length at 20 degrees Celsius",
    inputs: {
      length: input.number("any", "length as read", ABOVE_ZERO),
      temperature: input.number("degC", "temperature of the part", TEMPERATURE),
      material: input.text("what the part is made of", MATERIAL_NAMES),
      "gauge-material": input.optionalText("master the gauge was set on, at the part's temperature", MATERIAL_NAMES),
    },
    unit: "in",
    formula:
      "L20 = L / (1 + a (T - 20)); with a gauge set at the part's temperature L20 = L (1 + ag (T - 20)) / (1 + a (T - 20))",
    source: "ISO 1:2022 (reference temperature 20 degC); coefficients: see parts",
    run: (x, given) => {
      const unit = anyOf("length", given);
      const material = materialNamed(x.material);
      const gauge = x["gauge-material"] === undefined ? undefined : materialNamed(x["gauge-material"]);
      const at20 = lengthAtReference(x.length, x.temperature, material, gauge);
      return {
        value: at20,
        unit,
        parts: {
          correction: tidy(minus(at20, x.length)),
          expansion_per_degC: material.expansion,
          expansion_source: material.source,
        },
      };
    },
  }),
  computation({
    id: "cold-clearance",
    title: "Cold piston clearance for a wanted hot one",
    inputs: {
      hot: input.number("in", "clearance wanted when hot"),
      bore: input.number("in", "bore", ABOVE_ZERO),
      "piston-material": input.text("piston", MATERIAL_NAMES),
      "piston-temperature": input.number("degC", "skirt when running", TEMPERATURE),
      "block-material": input.text("block", MATERIAL_NAMES),
      "block-temperature": input.number("degC", "cylinder wall when running", TEMPERATURE),
    },
    unit: "in",
    formula: "cold = hot + bore (ap (Tp - 20) - ab (Tb - 20))",
    source: "linear expansion; coefficients as in temperature-correction",
    run: (x) => ({
      value: coldClearance(
        x.hot,
        x.bore,
        { material: materialNamed(x["piston-material"]), temperature: x["piston-temperature"] },
        { material: materialNamed(x["block-material"]), temperature: x["block-temperature"] },
      ),
    }),
  }),
];
