// The run-in, the leak-down, the jacket test and a spring's rate as readings: held against the usual limits, none of them a source.
import { describe, expect, it } from "vitest";
import { blankSpec } from "../../../shared/spec/blank.ts";
import { DEMO_SPEC } from "../../../shared/spec/demo-engine.ts";
import type { Limit } from "../../../shared/spec/spec.ts";
import { BenchLog } from "./bench-log.ts";

const BLANK = blankSpec({ id: "x", name: "X", engine: DEMO_SPEC.engine, bore: "3.5", stroke: "4" });

describe("usual limits of the last steps (common practice, no source)", () => {
  it.each([
    ["leak_down", { cylinder: 1 }, 12, "pass"],
    ["leak_down", { cylinder: 1 }, 25, "warn"],
    ["leak_down", { cylinder: 1 }, 45, "fail"],
    ["jacket_drop", { part: "block" }, 0, "pass"],
    ["jacket_drop", { part: "block" }, 1, "fail"],
    ["run_in_temperature", { stage: 1 }, 80, "pass"],
    ["run_in_temperature", { stage: 1 }, 99, "fail"],
  ] as const)("%s %o of %d: %s", (quantity, place, value, verdict) => {
    const log = new BenchLog(BLANK);
    log.read(quantity, place, value, { condition: "final" });
    expect(log.of(quantity)).toMatchObject([{ verdict, place }]);
  });

  it("leak-down has a guard band: 19 % of 20, good to 2, is too close to call", () => {
    const log = new BenchLog(BLANK);
    log.add("instrument.kept", {
      instrument: "leak tester",
      kind: "leak tester",
      resolution: "1",
      uncertainty: "2",
      unit: "percent",
      quantities: ["leak_down"],
    });
    log.read("leak_down", { cylinder: 1 }, 19, { condition: "final" });
    log.read("leak_down", { cylinder: 2 }, 10, { condition: "final" });
    expect(log.of("leak_down").map(({ verdict }) => verdict)).toEqual(["unknown", "pass"]);
  });

  it("a stage's speed is held against the sheet's own, where it has one", () => {
    const own: Limit = {
      id: "run_in_speed_1",
      on: "run_in_speed",
      where: { stage: 1 },
      accept: { low: "600", high: "800" },
      unit: "rpm",
      source: { kind: "maker", cite: "maker's manual, run-in table" },
    };
    const log = new BenchLog({ ...BLANK, limits: [...BLANK.limits, own] });
    log.read("run_in_speed", { stage: 1 }, 1200);
    log.read("run_in_speed", { stage: 2 }, 1200);
    expect(log.of("run_in_speed_1")).toMatchObject([{ verdict: "fail", place: { stage: 1 }, unit: "rpm" }]);
  });
});

describe("a spring's rate", () => {
  const rate: Limit = {
    id: "spring_rate",
    on: "valve_spring_rate",
    accept: { low: "130", high: "160" },
    unit: "lbf_per_in",
    source: { kind: "maker", cite: "maker's manual" },
  };
  const log = () => new BenchLog({ ...BLANK, limits: [rate] });
  const valve = { cylinder: 1, valve: "intake" } as const;

  it("follows from force and free length: 45 lbf at 1.75 of 2.0625 in is 144 lbf/in (Hooke: F = k x)", () => {
    const bench = log();
    bench.read("valve_spring_length", valve, 2.0625);
    bench.read("valve_spring_force", valve, 45, { over: { value: 1.75, unit: "in", digits: "1.75" } });
    expect(bench.of("spring_rate")).toMatchObject([{ verdict: "pass", value: 144 }]);
  });

  it("is nothing where the length of the force was not said", () => {
    const bench = log();
    bench.read("valve_spring_length", valve, 2.0625);
    bench.read("valve_spring_force", valve, 45);
    expect(bench.of("spring_rate")).toEqual([]);
  });

  it("is held in either system: 17.5 N/mm is 99.9 lbf/in (NIST SP 811, B.8)", () => {
    const bench = log();
    bench.read("valve_spring_rate", valve, 17.5, { unit: "N_per_mm" });
    expect(bench.of("spring_rate")[0]).toMatchObject({ verdict: "fail" });
    expect(bench.of("spring_rate")[0]?.value).toBeCloseTo(99.928, 3);
  });
});
