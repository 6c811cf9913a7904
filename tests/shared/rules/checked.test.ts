// What was claimed and not checked: ring gaps over the pin, hot lash, plastic gauge at both ends, wear against the standard size.
import { describe, expect, it } from "vitest";
import { DEMO_SPEC } from "../../../shared/spec/demo-engine.ts";
import type { Spec } from "../../../shared/spec/spec.ts";
import { BenchLog } from "./bench-log.ts";
import { clocks } from "./scenes.ts";

const clocked = (ringClock: "front" | "thrust" | undefined): Spec => {
  const { ringClock: _none, ...engine } = DEMO_SPEC.engine;
  return { ...DEMO_SPEC, engine: ringClock === undefined ? engine : { ...engine, ringClock } };
};
const stagger = (clock: Parameters<typeof clocked>[0], positions: readonly number[]) => {
  const log = new BenchLog(clocked(clock));
  clocks(log, positions);
  return log.of("ring_stagger")[0];
};

describe("ring gaps (TM 5-3895-370-14&P: 120 degrees apart; off the pin and the thrust faces: common practice, no source)", () => {
  it.each([
    ["front", [45, 165, 285], "pass", /none within 10/],
    // The pin lies along the crank: 0 and 180 with the clock at the front; the thrust faces lie across it.
    ["front", [0, 120, 240], "fail", /0\u00b0 is over the pin/],
    ["front", [92, 212, 332], "fail", /92\u00b0 is on a thrust face/],
    ["thrust", [0, 120, 240], "fail", /0\u00b0 is on a thrust face/],
    ["thrust", [85, 205, 325], "fail", /85\u00b0 is over the pin/],
    ["front", [355, 115, 235], "fail", /355\u00b0 is over the pin/],
    ["front", [40, 60, 200], "fail", /less than 90/],
  ] as const)("with 0 at the %s, at %j: %s", (clock, positions, verdict, why) => {
    const finding = stagger(clock, positions);
    expect(finding?.verdict).toBe(verdict);
    expect(finding?.why).toMatch(why);
  });
  it("with no datum on the sheet nothing is claimed of pin and thrust face", () => {
    const finding = stagger(undefined, [0, 120, 240]);
    expect(finding?.verdict).toBe("unknown");
    expect(finding?.why).toContain("cannot be checked");
  });
});

describe("lash", () => {
  const lash = (stage: "hot" | "cold" | undefined, value: number, spec: Spec = DEMO_SPEC) => {
    const log = new BenchLog(spec);
    log.read("valve_lash", { cylinder: 2, valve: "exhaust", ...(stage === undefined ? {} : { stage }) }, value);
    return log
      .findings()
      .filter(({ rule }) => rule.startsWith("valve_lash"))
      .map(({ rule, verdict }) => [rule, verdict]);
  };
  // The demo sheet: exhaust .011 to .013 cold, .009 to .011 hot.
  it.each([
    ["hot", 0.01, "valve_lash_exhaust_hot", "pass"],
    ["hot", 0.012, "valve_lash_exhaust_hot", "fail"],
    ["cold", 0.01, "valve_lash_exhaust", "fail"],
    ["cold", 0.012, "valve_lash_exhaust", "pass"],
    [undefined, 0.012, "valve_lash_exhaust", "pass"],
  ] as const)("read %s at %d is held against %s: %s", (stage, value, rule, verdict) => {
    expect(lash(stage, value)).toEqual([[rule, verdict]]);
  });
  it("hot is held against no cold limit where the sheet has no hot one", () => {
    const cold = { ...DEMO_SPEC, limits: DEMO_SPEC.limits.filter(({ where }) => where?.stage !== "hot") };
    expect(lash("hot", 0.012, cold)).toEqual([]);
  });
});

describe("plastic gauge at both ends", () => {
  const ends = (front: number, rear: number) => {
    const log = new BenchLog();
    log.read("bearing_clearance", { rod: 2, end: "front" }, front);
    log.read("bearing_clearance", { rod: 2, end: "rear" }, rear);
    return log.of("bearing_taper")[0];
  };
  it.each([
    [0.002, 0.0024, "pass", 0.0004],
    [0.0016, 0.0024, "warn", 0.0008],
    [0.0016, 0.0035, "fail", 0.0019],
  ])("%d and %d: %s by a taper of %d", (front, rear, verdict, value) => {
    expect(ends(front, rear)).toMatchObject({ verdict, value, place: { rod: 2 } });
  });
  it("one end alone has no taper", () => {
    const log = new BenchLog();
    log.read("bearing_clearance", { rod: 2, end: "front" }, 0.002);
    expect(log.of("bearing_taper")).toEqual([]);
  });
});

describe("wear against the standard size", () => {
  it("of a journal as found: 1.8750 - 1.8715 = .0035", () => {
    const log = new BenchLog();
    log.read("crankpin_diameter", { rod: 2, angle: "vertical" }, 1.8735);
    log.read("crankpin_diameter", { rod: 2, angle: "horizontal" }, 1.8715);
    expect(log.of("journal_wear")[0]).toMatchObject({ verdict: "fail", value: 0.0035 });
    expect(log.of("journal_wear")[0]?.remedy).toMatch(/^Grind all crankpins 0\.010 under/);
  });
  it("of one ground before: against its undersize", () => {
    const log = new BenchLog();
    log.read("journal_undersize", { rod: 2 }, -0.01);
    log.read("crankpin_diameter", { rod: 2 }, 1.864);
    // 1.8750 - .010 - 1.8640 = .0010.
    expect(log.of("journal_wear")[0]).toMatchObject({ verdict: "pass", value: 0.001 });
  });
  it("of a bore: 3.8885 - 3.8750 = .0135", () => {
    const log = new BenchLog();
    log.read("bore_diameter", { cylinder: 3, depth: "top", axis: "thrust" }, 3.8885);
    expect(log.of("bore_wear_rering")[0]).toMatchObject({ verdict: "fail", value: 0.0135 });
  });
});
