// Expansion against published figures, and what a gauge that lies on the part changes.
import { describe, expect, it } from "vitest";
import { celsius, inch, micrometre, millimetre, minus } from "../../../shared/compute/measure.ts";
import { coldClearance, lengthAtReference, MATERIAL_NAMES, materialNamed } from "../../../shared/compute/thermal.ts";
import { convertMeasure } from "../../../shared/compute/units.ts";

const steel = materialNamed("steel");

describe("coefficients", () => {
  // "Uncertainties in Dimensional Measurements Made at Nonstandard Temperatures", J. Res. NIST 99, 31 (1994).
  it.each([
    ["steel", 11.5],
    ["aluminium", 23.1],
  ])("%s is %d millionths per degree Celsius", (name, millionths) => {
    expect(materialNamed(name).expansion * 1e6).toBeCloseTo(millionths, 10);
  });
  it("steel by the degree Fahrenheit is about 6.3 microinches an inch (a quality magazine's rule of thumb)", () => {
    expect(Math.abs((steel.expansion / 1.8) * 1e6 - 6.3)).toBeLessThan(0.4);
  });
  it("every name that may be typed has a material, and no other has", () => {
    for (const name of MATERIAL_NAMES) expect(materialNamed(name).expansion).toBeGreaterThan(5e-6);
    expect(() => materialNamed("cheese")).toThrow("Expected one of");
  });
});

describe("length at 20 degrees", () => {
  it("300 mm of steel from 24 to 34 degrees grows by more than 30 um (a metrology lab's published case)", () => {
    const at = (temperature: number) => lengthAtReference(millimetre(300), celsius(temperature), steel);
    const growth = micrometre(convertMeasure(minus(at(24), at(34)), "mm", "um"));
    expect(growth).toBeGreaterThan(30);
    expect(growth).toBeCloseTo(34.5, 1);
  });
  it("with a steel master lying on an iron block only the difference of the two counts", () => {
    // (10.8 - 11.5) millionths x 9 degrees x 3.9 in is less than a fortieth of a thou.
    const iron = materialNamed("grey_iron");
    const difference = Math.abs(minus(lengthAtReference(inch(3.905), celsius(29), iron, steel), inch(3.905)));
    expect(difference).toBeLessThan(0.000025);
    expect(difference).toBeGreaterThan(0.00002);
  });
});

describe("cold clearance", () => {
  it("an aluminium piston in an iron block needs far more than an iron one", () => {
    const iron = { material: materialNamed("grey_iron"), temperature: celsius(110) };
    const block = { material: materialNamed("grey_iron"), temperature: celsius(85) };
    const alloy = { material: materialNamed("piston_alloy"), temperature: celsius(110) };
    // By hand: 3.905 (10.8e-6 x 90 - 10.8e-6 x 65) = .00105; 3.905 (21.5e-6 x 90 - 10.8e-6 x 65) = .00481.
    expect(coldClearance(inch(0.001), inch(3.905), iron, block)).toBeCloseTo(0.00205, 5);
    expect(coldClearance(inch(0.001), inch(3.905), alloy, block)).toBeCloseTo(0.00581, 5);
  });
});
