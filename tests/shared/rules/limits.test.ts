// The limit rule on the demo sheet: verdicts on and about the limits, the arithmetic shown, what follows from sizes, what to do.
import { describe, expect, it } from "vitest";
import type { Place } from "../../../shared/places/places.ts";
import type { QuantityId } from "../../../shared/quantities/types.ts";
import { isOpen, judgeReading, type Verdict } from "../../../shared/rules/index.ts";
import { BenchLog } from "./bench-log.ts";
import { bore } from "./scenes.ts";

const over = (value: number, digits: string) => ({ over: { value, unit: "in" as const, digits } });

describe("verdicts", () => {
  type Case = readonly [rule: string, quantity: QuantityId, place: Place, value: number, verdict: Verdict, extra: object];
  const CASES: readonly Case[] = [
    ["main_clearance", "bearing_clearance", { main: 2 }, 0.0025, "pass", {}],
    ["main_clearance", "bearing_clearance", { main: 2 }, 0.003, "warn", {}],
    ["main_clearance", "bearing_clearance", { main: 2 }, 0.0041, "fail", {}],
    ["rod_clearance", "bearing_clearance", { rod: 3 }, 0.0012, "fail", {}],
    ["rod_clearance", "bearing_clearance", { rod: 3 }, 0.0015, "pass", {}],
    ["crank_end_float", "crank_end_float", {}, 0.014, "fail", {}],
    ["rod_side_clearance", "rod_side_clearance", { rod: 3 }, 0.013, "warn", {}],
    ["rod_bend", "rod_bend", { rod: 4 }, 0.007, "fail", over(6, "6")],
    ["rod_bend", "rod_bend", { rod: 4 }, 0.002, "pass", over(6, "6")],
    ["rod_twist", "rod_twist", { rod: 2 }, 0.003, "pass", over(6, "6")],
    ["pin_fit_bush", "pin_fit_bush", { cylinder: 2 }, 0.0003, "pass", {}],
    ["pin_fit_bush", "pin_fit_bush", { cylinder: 3 }, 0.0011, "fail", {}],
    ["pin_fit_boss", "pin_fit_boss", { cylinder: 3 }, -0.0003, "warn", {}],
    ["ring_side_clearance_oil", "ring_side_clearance", { cylinder: 1, ring: "oil" }, 0.0045, "fail", {}],
    ["ring_side_clearance", "ring_side_clearance", { cylinder: 1, ring: "top" }, 0.0028, "warn", {}],
    ["valve_lash_exhaust", "valve_lash", { cylinder: 2, valve: "exhaust" }, 0.009, "fail", {}],
    ["valve_lash_intake", "valve_lash", { cylinder: 2, valve: "intake" }, 0.009, "pass", {}],
    ["guide_clearance_exhaust", "valve_guide_clearance", { cylinder: 3, valve: "exhaust" }, 0.0052, "fail", {}],
    ["seat_width_intake", "valve_seat_width", { cylinder: 4, valve: "intake" }, 0.09, "fail", {}],
    ["valve_spring_force", "valve_spring_force", { cylinder: 1, valve: "exhaust" }, 38, "fail", over(1.75, "1.75")],
    ["valve_spring_force", "valve_spring_force", { cylinder: 1, valve: "exhaust" }, 46, "unknown", over(1.5, "1.5")],
    ["turning_torque", "turning_torque", {}, 24, "pass", {}],
    ["turning_torque_crank", "turning_torque", { stage: "crank" }, 9, "fail", {}],
    ["chamber_volume", "chamber_volume", { cylinder: 3 }, 221, "fail", {}],
    ["crank_bend", "crank_runout_tir", { main: 2 }, 0.0016, "pass", {}],
    // A flywheel's face and a cam are not the crank: their run-out is taken as it is, not halved.
    ["flywheel_runout", "flywheel_runout", {}, 0.004, "pass", {}],
    ["flywheel_runout", "flywheel_runout", {}, 0.009, "fail", {}],
    ["cam_runout", "cam_runout", {}, 0.003, "warn", {}],
    // Standard lift of the demo sheet: .280.
    ["lobe_wear", "lobe_lift", { cylinder: 2, valve: "exhaust" }, 0.277, "pass", {}],
    ["lobe_wear", "lobe_lift", { cylinder: 2, valve: "exhaust" }, 0.268, "fail", {}],
  ];
  it.each(CASES)("%s: %s at %o of %d is %s", (rule, quantity, place, value, verdict, extra) => {
    const log = new BenchLog();
    log.read(quantity, place, value, extra);
    expect(log.of(rule).map((finding) => finding.verdict)).toEqual([verdict]);
  });

  it("the more particular limit stands before the general one", () => {
    const log = new BenchLog();
    log.read("ring_end_gap", { cylinder: 1, ring: "oil" }, 0.012);
    log.read("turning_torque", { stage: "crank" }, 9);
    expect(log.of("ring_end_gap")).toEqual([]);
    expect(log.of("turning_torque")).toEqual([]);
  });

  it("a metric reading is held against an inch limit", () => {
    const log = new BenchLog();
    log.read("crank_end_float", {}, 0.15, { unit: "mm", digits: "0.15" });
    expect(log.of("crank_end_float")[0]).toMatchObject({ verdict: "pass", unit: "in" });
    expect(log.of("crank_end_float")[0]?.value).toBeCloseTo(0.15 / 25.4, 12);
  });

  it("a quantity without a limit gives no finding, and a reading that waits gives no verdict", () => {
    const log = new BenchLog();
    log.read("trough_level", { rod: 1 }, 0.5);
    log.read("crank_end_float", {}, 0.02, { do: "confirm" });
    expect(log.findings().filter((finding) => finding.rule !== "waiting_reading")).toEqual([]);
  });

  it("a correction, a strike and a newer reading move the verdict", () => {
    const log = new BenchLog();
    const first = log.read("crank_end_float", {}, 0.014);
    log.read("crank_end_float", {}, 0.006);
    expect(log.of("crank_end_float")[0]?.verdict).toBe("pass");
    const last = log.events.at(-1)?.id ?? "";
    log.add("reading.struck", { target: last });
    expect(log.of("crank_end_float")[0]?.verdict).toBe("fail");
    log.add("reading.rejected", { target: first });
    expect(log.of("crank_end_float")[0]?.verdict).toBe("fail");
  });
});

describe("figures that follow from sizes", () => {
  it("bores as found: out-of-round and taper with their arithmetic (NAVEDTRA 14076 method)", () => {
    const log = new BenchLog();
    bore(log, 4, [3.8829, 3.8799, 3.88, 3.8786, 3.8766, 3.8762]);
    const [oval] = log.of("bore_out_of_round_rering");
    const [taper] = log.of("bore_taper_rering");
    // Exactly on the limit is inside it.
    expect(oval).toMatchObject({ verdict: "pass", value: 0.003 });
    expect(taper).toMatchObject({ verdict: "fail", value: 0.0063 });
    expect(taper?.why).toBe(
      "Bore taper at cylinder 4 is 0.0063 in (thrust: 3.8829 - 3.8766 = 0.0063): over the 0.0060 in allowed.",
    );
  });

  it("one oversize for the block, from the largest reading and the scores", () => {
    const log = new BenchLog();
    bore(log, 3, [3.8885, 3.8838, 3.8826, 3.8806, 3.8774, 3.8767]);
    expect(log.of("bore_taper_rering")[0]?.remedy).toMatch(/^Bore all four to \+0\.020 \(3\.8950\): .* need 3\.8925 /);
    log.read("score_depth", { cylinder: 3, depth: "middle" }, 0.006);
    expect(log.of("bore_taper_rering")[0]?.remedy).toMatch(/^Bore all four to \+0\.030 \(3\.9050\): .* need 3\.8986 /);
  });

  it("what was found before the work is settled by the finished size, and kept", () => {
    const log = new BenchLog();
    bore(log, 3, [3.8885, 3.8838, 3.8826, 3.8806, 3.8774, 3.8767]);
    expect(log.of("bore_taper_rering").filter(isOpen)).toHaveLength(1);
    log.read("bore_diameter", { cylinder: 3 }, 3.9052, { condition: "final" });
    expect(log.of("bore_taper_rering")).toHaveLength(1);
    expect(log.of("bore_taper_rering").filter(isOpen)).toEqual([]);
  });

  it("ring gap follows the bore that was measured, and the sheet's where none was", () => {
    const log = new BenchLog();
    log.read("ring_end_gap", { cylinder: 2, ring: "top" }, 0.01165);
    expect(log.of("ring_end_gap")[0]?.verdict).toBe("pass");
    expect(log.of("ring_end_gap")[0]?.why).toContain("not measured");
    log.read("bore_diameter", { cylinder: 2 }, 3.9051, { condition: "final" });
    const [finding] = log.of("ring_end_gap");
    expect(finding).toMatchObject({ verdict: "fail" });
    expect(finding?.why).toContain("x bore 3.9051");
    expect(finding?.remedy).toBe("File the ring ends by 0.0001 in or a little more, to 0.0118 in at least.");
  });

  it("piston clearance from bore and skirt; pin and guide fits from their two sizes", () => {
    const log = new BenchLog();
    log.read("bore_diameter", { cylinder: 4 }, 3.905, { condition: "final" });
    log.read("piston_skirt_diameter", { cylinder: 4 }, 3.9002);
    log.read("bush_id", { cylinder: 1 }, 0.8754);
    log.read("pin_diameter", { cylinder: 1 }, 0.875);
    log.read("guide_id", { cylinder: 1, valve: "intake" }, 0.3745);
    log.read("valve_stem_diameter", { cylinder: 1, valve: "intake" }, 0.372);
    expect(log.of("piston_clearance")[0]).toMatchObject({ verdict: "warn", value: 0.0048 });
    expect(log.of("piston_clearance")[0]?.remedy).toMatch(/3\.9005 to 3\.9020 in/);
    expect(log.of("pin_fit_bush")[0]).toMatchObject({ verdict: "pass", value: 0.0004 });
    expect(log.of("guide_clearance_intake")[0]).toMatchObject({ verdict: "pass", value: 0.0025 });
  });

  it("piston to head and compression ratio from protrusion, gasket and chamber", () => {
    const log = new BenchLog();
    log.read("bore_oversize", {}, 0.03);
    log.read("deck_protrusion", { cylinder: 3 }, 0.031);
    log.read("chamber_volume", { cylinder: 3 }, 221);
    expect(log.of("piston_to_head")[0]).toMatchObject({ verdict: "fail", value: 0.037, place: { cylinder: 3 } });
    expect(log.of("piston_to_head")[0]?.remedy).toContain("A gasket alone would need 0.0660 in.");
    expect(log.of("compression_ratio")[0]?.verdict).toBe("fail");
    expect(log.of("compression_ratio")[0]?.value).toBeCloseTo(4.779, 3);
    log.read("deck_protrusion", { cylinder: 3 }, 0.013);
    log.read("chamber_volume", { cylinder: 3 }, 224);
    expect(log.of("piston_to_head")[0]).toMatchObject({ verdict: "pass", value: 0.055 });
    expect(log.of("compression_ratio")[0]?.verdict).toBe("pass");
  });

  it("spreads across the cylinders name the ones they lie between", () => {
    const log = new BenchLog();
    log.read("chamber_volume", { cylinder: 2 }, 225.5);
    log.read("chamber_volume", { cylinder: 3 }, 221);
    log.read("compression_pressure", { cylinder: 1 }, 72);
    log.read("compression_pressure", { cylinder: 4 }, 60);
    expect(log.of("chamber_spread")[0]).toMatchObject({ verdict: "fail", value: 4.5, unit: "cc" });
    expect(log.of("chamber_spread")[0]?.why).toContain("225.5 (cylinder 2) - 221.0 (cylinder 3) = 4.5");
    expect(log.of("compression_spread")[0]).toMatchObject({ verdict: "fail", unit: "percent" });
    expect(log.of("compression_spread")[0]?.remedy).toMatch(/^Oil cylinder 4/);
  });

  it("an oval crankpin sends the whole set to the next undersize (TM 5-3805-262-34: grind all)", () => {
    const log = new BenchLog();
    log.read("crankpin_diameter", { rod: 1 }, 1.8738);
    log.read("crankpin_diameter", { rod: 3 }, 1.8722);
    log.read("journal_out_of_round", { rod: 3 }, 0.0018);
    expect(log.of("journal_out_of_round")[0]?.remedy).toMatch(
      /^Grind all crankpins 0\.010 under \(1\.8650\): the smallest is 1\.8704 in\./,
    );
  });

  it("shims: how much from each side, and what it comes to", () => {
    const log = new BenchLog();
    log.read("bearing_clearance", { rod: 2 }, 0.0045);
    log.read("bearing_clearance", { rod: 3 }, 0.0012);
    const remedies = log.of("rod_clearance").map((finding) => finding.remedy);
    expect(remedies[0]).toMatch(/^Take 0\.0020 in of shim from each side.*0\.0025 in\.$/);
    expect(remedies[1]).toMatch(/^Add 0\.0010 in of shim to each side.*0\.0022 in\.$/);
  });

  it("a changed part makes its figures unknown until they are measured again", () => {
    const log = new BenchLog();
    log.read("deck_protrusion", { cylinder: 3 }, 0.013);
    log.add("part.changed", { part: "piston", place: { cylinder: 3 }, what: "piston exchanged" });
    expect(log.of("piston_to_head")[0]).toMatchObject({ verdict: "unknown" });
    expect(log.of("piston_to_head")[0]?.why).toContain("piston exchanged");
    log.read("deck_protrusion", { cylinder: 3 }, 0.012);
    expect(log.of("piston_to_head")[0]).toMatchObject({ verdict: "pass" });
  });
});

describe("doubt", () => {
  const keep = (log: BenchLog, uncertainty: string, resolution = "0.001") =>
    log.add("instrument.kept", {
      instrument: "feelers no. 2",
      kind: "feeler",
      resolution,
      uncertainty,
      unit: "in",
      quantities: ["ring_end_gap", "crank_end_float"],
    });

  it("near a limit the instrument decides: too close to call, with the chance (ISO 14253-1, JCGM 106)", () => {
    const log = new BenchLog();
    keep(log, "0.0010");
    log.read("crank_end_float", {}, 0.0045);
    const [finding] = log.of("crank_end_float");
    expect(finding?.verdict).toBe("unknown");
    // 0.0005 inside the low limit with u = 0.0005: Phi(1) = 0.8413 (NIST/SEMATECH e-Handbook, 1.3.6.7.1).
    expect(finding?.why).toContain("too close to call with this feeler: 84 in 100 it is in");
    expect(finding?.why).toContain("coarser than a tenth of the tolerance");
  });

  it("well inside is in, well outside is out, whatever the instrument", () => {
    const log = new BenchLog();
    keep(log, "0.0010", "0.0001");
    log.read("crank_end_float", {}, 0.006);
    expect(log.of("crank_end_float")[0]?.verdict).toBe("pass");
    log.read("crank_end_float", {}, 0.014);
    expect(log.of("crank_end_float")[0]?.verdict).toBe("fail");
    log.read("crank_end_float", {}, 0.0095);
    expect(log.of("crank_end_float")[0]?.verdict).toBe("warn");
    log.read("crank_end_float", {}, 0.0118);
    expect(log.of("crank_end_float")[0]).toMatchObject({ verdict: "unknown" });
  });

  it("keeping an instrument re-judges what was read with it", () => {
    const log = new BenchLog();
    log.read("crank_end_float", {}, 0.0045);
    expect(log.of("crank_end_float")[0]?.verdict).toBe("pass");
    keep(log, "0.0010");
    expect(log.of("crank_end_float")[0]?.verdict).toBe("unknown");
  });
});

describe("one reading of the past", () => {
  it("is judged as it was read, though a newer one stands", () => {
    const log = new BenchLog();
    const first = log.read("ring_end_gap", { cylinder: 3, ring: "top" }, 0.009);
    log.read("ring_end_gap", { cylinder: 3, ring: "top" }, 0.013);
    const build = log.fold();
    const old = build.readings.get(first);
    if (old === undefined) throw new Error("the reading is gone");
    expect(judgeReading(build, old).map((finding) => [finding.rule, finding.verdict])).toEqual([["ring_end_gap", "fail"]]);
    expect(log.of("ring_end_gap").map((finding) => finding.verdict)).toEqual(["pass"]);
  });
  it("over a length is judged by the inch", () => {
    const log = new BenchLog();
    const id = log.read("rod_bend", { rod: 4 }, 0.007, over(6, "6"));
    const build = log.fold();
    const logged = build.readings.get(id);
    if (logged === undefined) throw new Error("the reading is gone");
    expect(judgeReading(build, logged)).toMatchObject([{ rule: "rod_bend", verdict: "fail" }]);
  });
});
