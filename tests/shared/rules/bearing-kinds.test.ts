// What may be done to a bearing follows from what it is. TM 10-3930-653-14&P, p. 78, and TM 5-3805-255-14, WP 0094, forbid shims,
// scraping and filing with shells; TM 5-3895-346-14: shells are not reworked from one undersize to another.
import { describe, expect, it } from "vitest";
import type { Place } from "../../../shared/places/places.ts";
import { whatIf } from "../../../shared/rules/index.ts";
import { blankSpec } from "../../../shared/spec/blank.ts";
import { DEMO_SPEC } from "../../../shared/spec/demo-engine.ts";
import { readSpecFile, writeSpecFile } from "../../../shared/spec/read.ts";
import { type BearingKind, bearingAt, type Spec } from "../../../shared/spec/spec.ts";
import { BenchLog } from "./bench-log.ts";

const withBearings = (bearings: Spec["engine"]["bearings"]): Spec => ({
  ...DEMO_SPEC,
  engine: { ...DEMO_SPEC.engine, bearings },
});

const SHIMMED = /shim (from|to) each side/;
const clearanceRemedy = (spec: Spec, place: Place, value: number): string => {
  const log = new BenchLog(spec);
  log.read("bearing_clearance", place, value);
  return log.of(place.main === undefined ? "rod_clearance" : "main_clearance")[0]?.remedy ?? "";
};

describe("a bearing out of its clearance", () => {
  it.each([
    ["poured", { rod: 2 }, 0.0045, true],
    ["poured", { main: 2 }, 0.003, true],
    ["shell", { rod: 2 }, 0.0045, false],
    ["shell", { main: 2 }, 0.003, false],
    ["shell", { rod: 3 }, 0.0012, false],
    ["roller", { rod: 2 }, 0.0045, false],
    ["roller", { rod: 2 }, 0.0005, false],
  ] as const)("%s at %j, %d: shims are told: %s", (kind, place, value, told) => {
    const remedy = clearanceRemedy(withBearings(kind), place, value);
    expect(SHIMMED.test(remedy)).toBe(told);
    expect(/babbitt|lamination/i.test(remedy)).toBe(false);
    if (kind === "shell") expect(remedy).toContain("never shimmed, scraped or filed");
  });

  it("mains and rods may be of two kinds, and each is told its own", () => {
    const mixed = withBearings({ main: "poured", rod: "shell" });
    expect(clearanceRemedy(mixed, { main: 2 }, 0.003)).toMatch(SHIMMED);
    expect(clearanceRemedy(mixed, { rod: 2 }, 0.0045)).not.toMatch(SHIMMED);
    expect(readSpecFile(writeSpecFile(mixed), "sheet.yaml")).toEqual({ ok: true, spec: mixed });
  });

  it("a worn journal under shells asks for the next undersize of the set, with shells for it", () => {
    const log = new BenchLog(withBearings("shell"));
    log.read("crankpin_diameter", { rod: 2 }, 1.873);
    log.read("bearing_clearance", { rod: 2 }, 0.0045);
    expect(log.of("rod_clearance")[0]?.remedy).toContain("all crankpins 0.010 under, with shells for it");
  });
});

describe("shims under a bearing that takes none", () => {
  const found = (kind: BearingKind) => {
    const log = new BenchLog(withBearings(kind));
    log.read("shim_thickness", { rod: 2, side: "a" }, 0.002);
    log.read("shim_thickness", { rod: 2, side: "b" }, 0.002);
    return log
      .findings()
      .filter(({ rule }) => rule.startsWith("shim_"))
      .map(({ rule, verdict }) => [rule, verdict]);
  };
  it("are a fault, alike or not; under a poured one they are not", () => {
    expect(found("shell")).toEqual([["shim_forbidden", "fail"]]);
    expect(found("roller")).toEqual([["shim_forbidden", "fail"]]);
    expect(found("poured")).toEqual([["shim_match", "pass"]]);
  });
  it("are not even supposed", () => {
    const log = new BenchLog(withBearings("shell"));
    log.read("bearing_clearance", { rod: 2 }, 0.0045);
    expect(() => whatIf(log.fold(), [{ kind: "shims", place: { rod: 2 }, removeEachSide: 0.002 }])).toThrow(
      "Expected a poured bearing to shim, got shell",
    );
  });
});

describe("floats and sides", () => {
  it.each([
    ["poured", "babbitt"],
    ["shell", "renew the rod"],
  ] as const)("%s: a rod that is wide at its sides is told of %s", (kind, word) => {
    const log = new BenchLog(withBearings(kind));
    log.read("rod_side_clearance", { rod: 3 }, 0.013);
    expect(log.of("rod_side_clearance")[0]?.remedy).toContain(word);
  });
  it("a thrust shim goes out or in by the side it stands on; shells have washers", () => {
    const remedy = (kind: BearingKind, float: number) => {
      const log = new BenchLog(withBearings(kind));
      log.read("crank_end_float", {}, float);
      return log.of("crank_end_float")[0]?.remedy ?? "";
    };
    // Too much float: a shim that holds the faces apart comes out, one that fills the gap goes in.
    expect(remedy("poured", 0.014)).toContain(
      "take it out where the shim holds the thrust faces apart, put it in where it fills",
    );
    expect(remedy("poured", 0.002)).toContain(
      "put it in where the shim holds the thrust faces apart, take it out where it fills",
    );
    expect(remedy("shell", 0.014)).toContain("0.0080 in thicker in all");
  });
});

describe("crush and spread of shells", () => {
  const engine = { ...DEMO_SPEC.engine, bearings: { main: "poured", rod: "shell" } as const };
  const blank = blankSpec({ id: "x", name: "X", engine, bore: "3.5", stroke: "4", crankpin: "1.75" });
  it.each([
    ["bearing_crush", 0.0005, "fail"],
    ["bearing_crush", 0.002, "pass"],
    ["bearing_crush", 0.006, "fail"],
    ["bearing_spread", 0, "fail"],
    ["bearing_spread", 0.02, "pass"],
  ] as const)("%s of %d: %s, and never a file", (quantity, value, verdict) => {
    const log = new BenchLog(blank);
    log.read(quantity, { rod: 2 }, value);
    const [finding] = log.of(quantity);
    expect(finding?.verdict).toBe(verdict);
    if (verdict === "fail") expect(finding?.remedy).toContain("never shimmed, scraped or filed");
  });
  it("are asked of nothing poured", () => {
    const poured = blankSpec({ id: "x", name: "X", engine: DEMO_SPEC.engine, bore: "3.5", stroke: "4" });
    expect(poured.limits.map(({ on }) => on)).not.toContain("bearing_crush");
  });
});

describe("housing bores of shells", () => {
  const engine = { ...DEMO_SPEC.engine, bearings: { main: "poured", rod: "shell" } as const };
  const blank = blankSpec({ id: "x", name: "X", engine, bore: "3.5", stroke: "4", crankpin: "1.75" });
  const measured = (log: BenchLog, second: number) => {
    log.read("rod_housing_bore", { rod: 2, angle: "vertical" }, 1.9002);
    log.read("rod_housing_bore", { rod: 2, angle: "horizontal" }, second);
    return log.of("rod_housing_out_of_round")[0];
  };
  it.each([
    [1.9006, "pass"],
    [1.9025, "fail"],
  ] as const)("torqued, %d across: %s", (second, verdict) => {
    const log = new BenchLog(blank);
    log.read("fastener_torque", { fastener: "rod", rod: 2, nut: "a" }, 30);
    expect(measured(log, second)).toMatchObject({ verdict, place: { rod: 2 } });
    // Pulled again for good, it was pulled all the same when it was measured.
    log.read("fastener_torque", { fastener: "rod", rod: 2, nut: "a" }, 35);
    expect(log.of("rod_housing_out_of_round")[0]?.verdict).toBe(verdict);
  });
  it("say nothing where the cap was not pulled up first", () => {
    const log = new BenchLog(blank);
    expect(measured(log, 1.9006)).toMatchObject({ verdict: "unknown" });
    log.read("fastener_torque", { fastener: "rod", rod: 2, nut: "a" }, 30);
    expect(log.of("rod_housing_out_of_round")[0]?.verdict).toBe("unknown");
  });
});

describe("a blank sheet", () => {
  it("holds rollers to their own clearance", () => {
    const engine = { ...DEMO_SPEC.engine, bearings: "roller" } as const;
    const log = new BenchLog(blankSpec({ id: "x", name: "X", engine, bore: "3.5", stroke: "4" }));
    log.read("roller_clearance", { rod: 1 }, 0.0005);
    log.read("roller_clearance", { rod: 2 }, 0.002);
    expect(log.of("roller_clearance").map(({ verdict }) => verdict)).toEqual(["pass", "fail"]);
  });
  it("gives no plain-bearing clearance for rollers", () => {
    const engine = { ...DEMO_SPEC.engine, bearings: { main: "roller", rod: "poured" } as const };
    const blank = blankSpec({ id: "x", name: "X", engine, bore: "3.5", stroke: "4", mainJournal: "2", crankpin: "1.75" });
    expect(blank.limits.map(({ on }) => on)).not.toContain("main_clearance");
    expect(blank.limits.map(({ on }) => on)).toContain("rod_clearance");
    expect(bearingAt(engine, { main: 1 })).toBe("roller");
  });
});
