// Gauges: zero checks in their own units, calibration, wrenches where they are calibrated, and what their uncertainty does to a figure.
import { describe, expect, it } from "vitest";
import type { EventData } from "../../../shared/events/events.ts";
import { Evaluator } from "../../../shared/rules/index.ts";
import { DEMO_SPEC } from "../../../shared/spec/demo-engine.ts";
import { BenchLog } from "./bench-log.ts";

type Kept = EventData["instrument.kept"];
const keep = (log: BenchLog, instrument: string, more: Partial<Kept>): void => {
  const usual = {
    instrument,
    kind: instrument,
    resolution: "0.0001",
    uncertainty: "0.0002",
    unit: "in" as const,
    quantities: [],
  };
  log.add("instrument.kept", { ...usual, ...more });
};
const NUT = { fastener: "rod", rod: 2, nut: "b" } as const;

describe("zero checks in the gauge's own unit (within half a step: common practice, no source)", () => {
  it.each<readonly [string, Partial<Kept>, string, Kept["unit"], string]>([
    ["wrench", { unit: "ft_lbf", resolution: "1" }, "3", "ft_lbf", "warn"],
    ["wrench", { unit: "ft_lbf", resolution: "1" }, "0.4", "ft_lbf", "pass"],
    // 0.4 N.m is .295 ft-lbf (NIST SP 811, B.8).
    ["wrench", { unit: "ft_lbf", resolution: "1" }, "0.4", "N_m", "pass"],
    ["thermometer", { unit: "degC", resolution: "0.5" }, "2", "degC", "warn"],
    ["thermometer", { unit: "degC", resolution: "0.5" }, "-0.2", "degC", "pass"],
    ["burette", { unit: "cc", resolution: "0.2" }, "0.3", "cc", "warn"],
    ["spring tester", { unit: "lbf", resolution: "1" }, "2", "lbf", "warn"],
    ["spring tester", { unit: "lbf", resolution: "1" }, "0.001", "in", "unknown"],
  ])("%s (%j) off by %s %s: %s", (instrument, more, deviation, unit, verdict) => {
    const log = new BenchLog();
    keep(log, instrument, more);
    log.add("instrument.zeroed", { instrument, deviation, unit });
    expect(log.of("instrument_zero")[0]?.verdict).toBe(verdict);
  });
});

describe("calibration (AC 43.13-1B, 7-40 a: torque wrenches once a year)", () => {
  const found = (more: Partial<Kept>) => {
    const log = new BenchLog();
    keep(log, "gauge", more);
    return log.of("calibration")[0];
  };
  // The log is of January 2026.
  it.each<readonly [Partial<Kept>, string | undefined]>([
    [{ unit: "ft_lbf" }, "unknown"],
    [{ unit: "ft_lbf", calibrated: "2025-03-01" }, "pass"],
    [{ unit: "ft_lbf", calibrated: "2024-12-01" }, "warn"],
    [{ unit: "in" }, undefined],
    [{ unit: "in", calibrated: "2024-12-01" }, "warn"],
  ])("%j: %s", (more, verdict) => {
    expect(found(more)?.verdict).toBe(verdict);
  });
  it("names the certificate", () => {
    expect(found({ unit: "ft_lbf", calibrated: "2025-03-01", certificate: "K 88" })?.why).toContain("certificate K 88");
  });
});

describe("a wrench's range (ISO 6789-1:2017: calibrated from 20 % of its largest figure, from memory)", () => {
  it.each([
    ["250", 38, "warn"],
    ["150", 38, undefined],
    ["40", 45, "warn"],
  ])("of %s ft-lbf at %d: %s", (range, value, verdict) => {
    const log = new BenchLog();
    keep(log, "wrench", { unit: "ft_lbf", resolution: "1", uncertainty: "0.5", range, quantities: ["fastener_torque"] });
    log.read("fastener_torque", NUT, value);
    expect(log.of("wrench_range")[0]?.verdict).toBe(verdict);
  });
});

describe("doubt in figures that are no plain length", () => {
  it("torque: 35.5 on a low limit of 35 with a wrench good to 1.4 is not proven", () => {
    const log = new BenchLog();
    keep(log, "wrench", { unit: "ft_lbf", resolution: "1", uncertainty: "1.4", quantities: ["fastener_torque"] });
    log.read("fastener_torque", NUT, 35.5);
    expect(log.of("torque")[0]?.verdict).toBe("unknown");
    expect(log.of("torque")[0]?.why).toContain("too close to call");
    log.read("fastener_torque", NUT, 38);
    expect(log.of("torque")[0]?.verdict).toBe("pass");
  });

  it("in by the inch: .0028 over 6 with a dial good to .0005 is .00047 +- .00008, too close to .0005", () => {
    const log = new BenchLog();
    keep(log, "dial", { uncertainty: "0.0005", quantities: ["rod_bend"] });
    const over = (value: number) => log.read("rod_bend", { rod: 1 }, value, { over: { value: 6, unit: "in", digits: "6" } });
    over(0.0028);
    expect(log.of("rod_bend")[0]?.verdict).toBe("unknown");
    over(0.002);
    expect(log.of("rod_bend")[0]?.verdict).toBe("pass");
  });

  it("percent: 72 and 65 psi differ by 9.7 %, good to 1 psi each: too close to 10", () => {
    const log = new BenchLog();
    keep(log, "compression gauge", { unit: "psi", resolution: "1", uncertainty: "1", quantities: ["compression_pressure"] });
    log.read("compression_pressure", { cylinder: 1 }, 72, { condition: "final" });
    log.read("compression_pressure", { cylinder: 2 }, 65, { condition: "final" });
    expect(log.of("compression_spread")[0]?.verdict).toBe("unknown");
    log.read("compression_pressure", { cylinder: 2 }, 70, { condition: "final" });
    expect(log.of("compression_spread")[0]?.verdict).toBe("pass");
  });

  it("bend is half the run-out, and so is its doubt: .0016 good to .0005 is .0008 +- .00025, out of doubt at .0010 only by half", () => {
    const bend = (tir: number) => {
      const log = new BenchLog();
      keep(log, "dial", { uncertainty: "0.0005", quantities: ["crank_runout_tir"] });
      log.read("crank_runout_tir", { main: 2 }, tir);
      return log.of("crank_bend")[0]?.verdict;
    };
    // u(bend) = .000125; .0010 - .00079 = 1.68 u is proven at 95 %, .0010 - .00085 = 1.2 u is not.
    expect(bend(0.00158)).toBe("pass");
    expect(bend(0.0017)).toBe("unknown");
  });

  it("what is the same in all readings of one gauge cancels in their difference (JCGM 100:2008, 5.2.2)", () => {
    const oval = (repeat: string | undefined) => {
      const log = new BenchLog();
      keep(log, "bore gauge", {
        uncertainty: "0.0004",
        quantities: ["bore_diameter"],
        ...(repeat === undefined ? {} : { repeat }),
      });
      log.read("bore_diameter", { cylinder: 1, depth: "top", axis: "thrust" }, 3.9053, { condition: "final" });
      log.read("bore_diameter", { cylinder: 1, depth: "top", axis: "axial" }, 3.905, { condition: "final", digits: "3.9050" });
      return log.of("bore_out_of_round_finish")[0]?.verdict;
    };
    // .0003 against .0005: u = .0002 x sqrt 2 = .00028 without it, .00005 x sqrt 2 = .00007 where it repeats within .0001.
    expect(oval(undefined)).toBe("unknown");
    expect(oval("0.0001")).toBe("pass");
  });

  it("a gauge much coarser than the limit proves nothing, not even that it is out", () => {
    const log = new BenchLog();
    keep(log, "tape", { uncertainty: "0.1", quantities: ["crank_end_float"] });
    log.read("crank_end_float", {}, 0.006);
    expect(log.of("crank_end_float")[0]?.verdict).toBe("unknown");
  });
});

describe("doubt besides the gauge's (JCGM 100:2008, F.2.2.1, H.1.3)", () => {
  it("digits said coarser than the gauge reads: .002 of .0015 to .0025 is 1.7 u from either, .0020 is not in doubt", () => {
    const clearance = (digits: string) => {
      const log = new BenchLog();
      keep(log, "dial", { quantities: ["bearing_clearance"] });
      log.read("bearing_clearance", { main: 2 }, 0.002, { digits });
      return log.of("main_clearance")[0];
    };
    // u = sqrt(.0001^2 + (.001^2 - .0001^2) / 12) = .00030; against .0001 alone.
    expect(clearance("0.002")?.verdict).toBe("unknown");
    expect(clearance("0.002")?.source).toContain("U = 0.00061 in (k = 2) of the gauge and the digits said");
    expect(clearance("0.0020")?.verdict).toBe("pass");
  });

  it("temperature: 3.8828 at 40 degC, known to 5: u = 3.88 x 10.8e-6 x 5 = .00021, where .0002 is left of the wear", () => {
    const wear = (temperature: string | undefined) => {
      const log = new BenchLog();
      keep(log, "bore gauge", { uncertainty: "0.0001", quantities: ["bore_diameter"] });
      keep(log, "thermometer", {
        unit: "degC",
        resolution: "1",
        uncertainty: temperature ?? "1",
        quantities: ["part_temperature"],
      });
      if (temperature !== undefined) log.read("part_temperature", { part: "block" }, 40);
      log.read("bore_diameter", { cylinder: 1, depth: "top", axis: "thrust" }, 3.8828, { condition: "as_found" });
      return log.of("bore_wear_rering")[0];
    };
    expect(wear(undefined)?.verdict).toBe("pass");
    expect(wear("0.5")?.verdict).toBe("pass");
    expect(wear("10")?.verdict).toBe("unknown");
    expect(wear("10")?.source).toContain("of the gauge, the sheet's digits and temperature");
  });

  it("a temperature that is corrected bears on the sizes read after it, event by event as all at once", () => {
    const log = new BenchLog();
    keep(log, "bore gauge", { uncertainty: "0.0001", quantities: ["bore_diameter"] });
    keep(log, "thermometer", { unit: "degC", resolution: "1", uncertainty: "10", quantities: ["part_temperature"] });
    const said = log.read("part_temperature", { part: "block" }, 40);
    log.read("bore_diameter", { cylinder: 1, depth: "top", axis: "thrust" }, 3.8828, { condition: "as_found" });
    const following = new Evaluator(log.fold());
    const before = log.events.length;
    log.add("reading.struck", { target: said });
    for (const event of log.events.slice(before)) following.apply(event);
    expect(following.findings()).toEqual(log.findings());
    expect(log.of("bore_wear_rering")[0]?.verdict).toBe("pass");
  });

  it("the sheet's digits: a lift of .280 is good to .0005 either way, one of .2800 to .00005", () => {
    const worn = (standard: string) => {
      const log = new BenchLog({ ...DEMO_SPEC, nominals: { ...DEMO_SPEC.nominals, lobe_lift: [standard] } });
      keep(log, "dial", { quantities: ["lobe_lift"] });
      log.read("lobe_lift", { cylinder: 1, valve: "intake" }, 0.2754);
      return log.of("lobe_wear")[0]?.verdict;
    };
    // .0004 is left of .005: 4 u of the dial's .0001, 1.3 u of sqrt(.0001^2 + .001^2 / 12) = .00031.
    expect(worn("0.2800")).toBe("pass");
    expect(worn("0.280")).toBe("unknown");
  });
});

describe("the shop's rule", () => {
  const read = (decision: "probability_95" | "guard_band_2u" | "simple_acceptance" | undefined, value: number) => {
    const log = new BenchLog(decision === undefined ? DEMO_SPEC : { ...DEMO_SPEC, decision });
    keep(log, "dial", { uncertainty: "0.0010", quantities: ["crank_end_float"] });
    log.read("crank_end_float", {}, value);
    return log.of("crank_end_float")[0];
  };
  // Low limit .0040, u = .0005: .00495 is 1.9 u inside, proven at 95 % (1.645 u) and not by U = 2u.
  it.each([
    [undefined, 0.00495, "pass", "ISO 14253-1:2017"],
    ["probability_95", 0.0045, "unknown", "ISO 14253-1:2017"],
    ["guard_band_2u", 0.00495, "unknown", "guard band U = 2u"],
    ["simple_acceptance", 0.0041, "pass", "JCGM 106:2012, 8.2.1"],
  ] as const)("%s at %d: %s, and says so", (decision, value, verdict, source) => {
    expect(read(decision, value)?.verdict).toBe(verdict);
    expect(read(decision, value)?.source).toContain(source);
  });
});
