// Two defaults that could hurt: a piston that grows into its bore, and a bolt pulled to all it can bear.
import { describe, expect, it } from "vitest";
import { blankSpec } from "../../../shared/spec/blank.ts";
import { DEMO_SPEC } from "../../../shared/spec/demo-engine.ts";
import type { Spec } from "../../../shared/spec/spec.ts";
import { BenchLog } from "./bench-log.ts";

const NUT = { fastener: "rod", rod: 2, nut: "b" } as const;

/** Coefficients: ASM Metals Handbook, vol. 2, alloy 332.0 (20.7e-6/K, from memory) and the handbook's 6.0e-6/degF (10.8e-6/K) for grey iron.
 * Skirt 110, wall 85 degC: assumed. Lost by heat, worked out by hand by the inch of bore: alloy 20.7e-6 x 90 - 10.8e-6 x 65 = .001161;
 * iron 10.8e-6 x 90 - 10.8e-6 x 65 = .00027. */
const LOST = { piston_alloy: 0.001161, grey_iron: 0.00027 } as const;

describe("piston clearance by material", () => {
  const blank = (piston: string) =>
    blankSpec({
      id: "x",
      name: "X",
      engine: DEMO_SPEC.engine,
      bore: "3.8750",
      stroke: "4.500",
      materials: { ...DEMO_SPEC.materials, piston },
    });
  const limit = (spec: Spec) => spec.limits.find(({ on }) => on === "piston_clearance");

  it.each([
    ["grey_iron", 0.00075],
    // .001161 lost and .00025 left, up to the next hundred-thousandth.
    ["piston_alloy", 0.00142],
  ] as const)("a blank sheet asks for %s at least %d by the inch, more than heat takes", (material, low) => {
    const accept = limit(blank(material))?.accept;
    expect(Number(accept?.low)).toBeCloseTo(low, 5);
    expect(Number(accept?.low)).toBeGreaterThan(LOST[material] + 0.0002);
    expect(Number(accept?.high)).toBeGreaterThan(Number(accept?.low));
  });

  it("claims nothing of a material it does not know", () => {
    expect(limit(blank("unobtainium"))).toBeUndefined();
  });

  it("an alloy piston at iron's clearance seizes: refused by a blank sheet, and by a sheet that would let it pass", () => {
    // 3.875 x .001161 = .00450 lost; .0035 is less.
    const log = new BenchLog(blank("piston_alloy"));
    log.read("piston_clearance", { cylinder: 2 }, 0.0035);
    expect(log.of("piston_clearance")[0]?.verdict).toBe("fail");
    const iron = new BenchLog({ ...DEMO_SPEC, materials: { ...DEMO_SPEC.materials, piston: "piston_alloy" } });
    iron.read("piston_clearance", { cylinder: 2 }, 0.0035);
    expect(iron.of("piston_clearance")[0]?.verdict).toBe("pass");
    expect(iron.of("piston_heat")[0]?.verdict).toBe("fail");
    expect(iron.of("piston_heat")[0]?.value).toBeCloseTo(0.0035 - 3.875 * LOST.piston_alloy, 5);
  });

  it("iron at the same clearance does not, and a maker's own limit stands", () => {
    const read = (spec: Spec) => {
      const log = new BenchLog(spec);
      log.read("piston_clearance", { cylinder: 2 }, 0.0035);
      return log.of("piston_heat");
    };
    expect(read(DEMO_SPEC)).toEqual([]);
    const maker = { kind: "maker" as const, cite: "page 12" };
    expect(
      read({
        ...DEMO_SPEC,
        materials: { ...DEMO_SPEC.materials, piston: "piston_alloy" },
        limits: DEMO_SPEC.limits.map((row) => (row.on === "piston_clearance" ? { ...row, source: maker } : row)),
      }),
    ).toEqual([]);
  });
});

describe("bolts and their proof load", () => {
  /** FAA AC 43.13-1B, Table 7-1, fine thread, nuts AN310 and MS20365: most that may be pulled (90,000 psi in bolts), in-lbf. */
  const MOST: Readonly<Record<string, number>> = { "3/8-24": 390, "7/16-20": 840, "1/2-20": 1100 };

  it.each(Object.entries(DEMO_SPEC.fasteners))("the demo's %s bolts stay below AC 43.13-1B, Table 7-1", (_group, fastener) => {
    expect(fastener.unit).toBe("ft_lbf");
    expect(12 * Number(fastener.high)).toBeLessThanOrEqual(MOST[fastener.thread] ?? 0);
  });

  it.each(Object.entries(DEMO_SPEC.fasteners))("and the high torque of %s is no more than 85 %% of proof", (group, fastener) => {
    const log = new BenchLog();
    log.read("fastener_torque", { fastener: group as "rod", nut: 1 }, Number(fastener.high));
    expect(log.of("bolt_stress")[0]?.verdict).toBe("pass");
  });

  it("Shigley, 9th ed., Ex. 8-3: 3/4-16 at 25 kip is 67.02 ksi, 21 % below a proof of 85", () => {
    const rod = DEMO_SPEC.fasteners.rod;
    if (rod === undefined) throw new Error("the demo has no rod bolts");
    const shigley = { ...rod, thread: "3/4-16", threadsPerInch: 16, majorDiameter: "0.75", k: "0.2", high: "400" };
    const log = new BenchLog({ ...DEMO_SPEC, fasteners: { rod: shigley } });
    // T = K F d = .2 x 25000 x .75 = 3750 in-lbf (same example, part b).
    log.read("fastener_torque", NUT, 3750 / 12);
    const [finding] = log.of("bolt_stress");
    expect(finding?.verdict).toBe("pass");
    expect(finding?.why).toContain("67.0 ksi");
    expect(1 - (finding?.value ?? 0)).toBeCloseTo(0.21, 2);
  });

  it("the torque that took a 3/8-24 bolt to its whole proof load is warned of", () => {
    // 42 ft-lbf at K .18: 504/(.18 x .375) = 7467 lbf on .0878 in2 (Shigley, Table 8-2) = 85.0 ksi.
    const rod = DEMO_SPEC.fasteners.rod;
    if (rod === undefined) throw new Error("the demo has no rod bolts");
    const log = new BenchLog({
      ...DEMO_SPEC,
      fasteners: { rod: { ...rod, thread: "3/8-24", threadsPerInch: 24, majorDiameter: "0.375" } },
    });
    log.read("fastener_torque", NUT, 42);
    expect(log.of("bolt_stress")[0]?.verdict).toBe("warn");
    expect(log.of("bolt_stress")[0]?.value).toBeCloseTo(1, 2);
  });

  it("says nothing of a bolt whose grade is not on the sheet", () => {
    const { proof: _proof, ...rod } = DEMO_SPEC.fasteners.rod ?? { proof: undefined };
    const log = new BenchLog({ ...DEMO_SPEC, fasteners: { rod: rod as NonNullable<Spec["fasteners"]["rod"]> } });
    log.read("fastener_torque", NUT, 42);
    expect(log.of("bolt_stress")).toEqual([]);
  });
});
