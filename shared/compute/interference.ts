// Interference fits: pressure and hoop stress from Lame's thick cylinders, and the heat or cold that gets them together.
import { computation, input } from "./computation.ts";
import { ABOVE_ZERO, NOT_NEGATIVE, TEMPERATURE } from "./domain.ts";
import { ELASTIC, type Elastic } from "./elastic.ts";
import { type Celsius, celsius, type Inch, inch, lbfPerSquareInch, type Measure, tidy } from "./measure.ts";
import { MATERIAL_NAMES, type Material, materialNamed, REFERENCE } from "./thermal.ts";

const SHIGLEY = "Shigley's Mechanical Engineering Design, 9th ed.";
const ELASTIC_NAMES = Object.keys(ELASTIC);

export interface Fit {
  /** On the diameter. */
  readonly interference: Inch;
  readonly diameter: Inch;
  /** Outside of the hub. */
  readonly outside: Inch;
  /** Bore of the shaft; 0 for a solid one. */
  readonly inside: Inch;
  readonly hub: Elastic;
  readonly shaft: Elastic;
}

export interface FitStress {
  readonly pressure: Measure<"lbf_per_in2">;
  /** Pull round the hub's bore, and push round the shaft (below zero). */
  readonly hub: Measure<"lbf_per_in2">;
  readonly shaft: Measure<"lbf_per_in2">;
}

/** Pressure and hoop stress of an interference fit, both parts elastic. Source: Shigley, eq. 3-56 to 3-58. @throws RangeError when the parts do not lie one in the other */
export function fitStress({ interference, diameter, outside, inside, hub, shaft }: Fit): FitStress {
  if (!(outside > diameter && diameter > inside)) {
    throw new RangeError(`Expected outside above diameter above inside, got ${outside}, ${diameter} and ${inside} in`);
  }
  const ring = (outside ** 2 + diameter ** 2) / (outside ** 2 - diameter ** 2);
  const core = (diameter ** 2 + inside ** 2) / (diameter ** 2 - inside ** 2);
  const give = diameter * ((ring + hub.poisson) / hub.modulus + (core - shaft.poisson) / shaft.modulus);
  const pressure = interference / give;
  const stress = (value: number) => lbfPerSquareInch(tidy(value));
  return { pressure: stress(pressure), hub: stress(pressure * ring), shaft: stress(-pressure * core) };
}

/** Change of temperature that moves a diameter by `by`. */
export function riseFor(by: Inch, diameter: Inch, material: Material): number {
  return tidy(by / (material.expansion * diameter));
}

const elastic = (name: string): Elastic => ELASTIC[name] ?? materialless(name);
function materialless(name: string): never {
  throw new RangeError(`Expected one of ${ELASTIC_NAMES.join(", ")} for a material, got "${name}"`);
}

export const INTERFERENCE_COMPUTATIONS = [
  computation({
    id: "interference",
    title: "Pressure and stress of an interference fit",
    inputs: {
      interference: input.number("in", "on the diameter", ABOVE_ZERO),
      diameter: input.number("in", "where the two meet", ABOVE_ZERO),
      outside: input.number("in", "outside of the hub", ABOVE_ZERO),
      inside: input.optional("in", "bore of the shaft; 0, a solid one, when left out", NOT_NEGATIVE),
      "hub-material": input.text("hub", ELASTIC_NAMES),
      "shaft-material": input.text("shaft", ELASTIC_NAMES),
    },
    unit: "lbf_per_in2",
    formula:
      "p = interference / (D ((Ro^2 + R^2) / (Ro^2 - R^2) + vo) / Eo + D ((R^2 + Ri^2) / (R^2 - Ri^2) - vi) / Ei); hoop stress = p x the hub's ratio of squares",
    source: `${SHIGLEY}, eq. 3-56 to 3-58; Table A-5 for the metals`,
    run: (x) => {
      const stress = fitStress({
        interference: x.interference,
        diameter: x.diameter,
        outside: x.outside,
        inside: x.inside ?? inch(0),
        hub: elastic(x["hub-material"]),
        shaft: elastic(x["shaft-material"]),
      });
      return {
        value: stress.pressure,
        parts: {
          hub_hoop_stress: { value: stress.hub, unit: "lbf_per_in2" },
          shaft_hoop_stress: { value: stress.shaft, unit: "lbf_per_in2" },
          least_heat_rise_degC: riseFor(x.interference, x.diameter, materialNamed(x["hub-material"])),
        },
      };
    },
  }),
  computation({
    id: "shrink-temperature",
    title: "Temperature to put an interference fit together",
    inputs: {
      interference: input.number("in", "on the diameter", NOT_NEGATIVE),
      clearance: input.number("in", "wanted while it goes together", NOT_NEGATIVE),
      diameter: input.number("in", "where the two meet", ABOVE_ZERO),
      material: input.text("of the part that is heated or cooled", MATERIAL_NAMES),
      room: input.optional("degC", "temperature of both before; 20 when left out", TEMPERATURE),
      part: input.optionalText("hub is heated, shaft is cooled; hub when left out", ["hub", "shaft"]),
    },
    unit: "degC",
    formula: "temperature = room + (interference + clearance) / (expansion x diameter) for a hub, room - for a shaft",
    source: "linear expansion; coefficients as in temperature-correction",
    run: (x) => {
      const room: Celsius = x.room ?? REFERENCE;
      const rise = riseFor(inch(x.interference + x.clearance), x.diameter, materialNamed(x.material));
      const wanted = celsius(tidy(x.part === "shaft" ? room - rise : room + rise));
      if (wanted < -196)
        throw new RangeError(`Expected a temperature that liquid nitrogen can reach (-196 degC), got ${wanted} degC`);
      return { value: wanted, parts: { change_degC: rise } };
    },
  }),
];
