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
  // Callister, Fundamentals of Materials Science and Engineering, 3rd ed., Table B.6: 356.0 is a general casting alloy, C93200 bearing bronze.
  it.each([
    ["cast_aluminium", 21.5],
    ["bronze", 18.0],
  ])("%s is %d (Callister, Table B.6)", (name, millionths) => {
    expect(materialNamed(name).expansion * 1e6).toBeCloseTo(millionths, 10);
  });
  // AISC Manual, coefficients by the 100 degrees Fahrenheit: bronze .00101, grey iron .00059, mild steel .00065; handbooks differ by some 5 %.
  it.each([
    ["bronze", 10.1],
    ["grey_iron", 5.9],
    ["steel", 6.5],
  ])("%s is within 5 in 100 of the %d millionths per degree Fahrenheit of a building manual", (name, millionths) => {
    expect(Math.abs((materialNamed(name).expansion / 1.8) * 1e6 - millionths) / millionths).toBeLessThan(0.05);
  });
  it("piston alloys lie below the general casting alloy, and the one with more silicon below the other (ASM Metals Handbook, vol. 2, from memory: 20.7 and 18.9)", () => {
    const [low, usual, general] = ["low_expansion_piston_alloy", "piston_alloy", "cast_aluminium"].map(
      (n) => materialNamed(n).expansion,
    );
    expect(low).toBeLessThan(usual ?? 0);
    expect(usual).toBeLessThan(general ?? 0);
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
    // By hand: 3.905 (10.8e-6 x 90 - 10.8e-6 x 65) = .00105; 3.905 (20.7e-6 x 90 - 10.8e-6 x 65) = .00453.
    expect(coldClearance(inch(0.001), inch(3.905), iron, block)).toBeCloseTo(0.00205, 5);
    expect(coldClearance(inch(0.001), inch(3.905), alloy, block)).toBeCloseTo(0.00553, 5);
  });
});
