// Nuts, cotters, shims, order, proof and the words said about them: the rules beyond plain limits, in the cases that hurt.
import { describe, expect, it } from "vitest";
import { DEMO_SPEC } from "../../../shared/spec/demo-engine.ts";
import { BenchLog } from "./bench-log.ts";

const NUT = { fastener: "rod", rod: 2, nut: "b" } as const;

describe("castle nuts", () => {
  it("22 degrees short at 35 ft-lbf: the slot would take about 62, so the washer is stoned .0031", () => {
    // Shigley, 9th ed., ch. 8 for K and bolt stiffness: F = 420/(.18 x .4375) = 5333 lbf; kb = pi/4 x .4375^2 x 30e6/2.5 = 1.804e6,
    // ke = 3/4 kb = 1.353e6 lbf/in, 22/360/20 in of it 4134 lbf: T = .18 x 9467 x .4375/12 = 62.1. Thickness: 22/360/20 = .00306 in.
    const log = new BenchLog();
    log.read("fastener_torque", NUT, 35);
    log.read("castle_nut_angle", NUT, 22);
    const [finding] = log.of("castle_nut");
    expect(finding).toMatchObject({ verdict: "fail", place: NUT });
    expect(finding?.why).toContain("about 62 ft-lbf at the slot");
    expect(finding?.remedy).toContain("stone 0.0031 in");
    expect(finding?.remedy).toContain("Never back off.");
  });

  it("5 degrees short may go forward", () => {
    const log = new BenchLog();
    log.read("fastener_torque", NUT, 35);
    log.read("castle_nut_angle", NUT, 5);
    expect(log.of("castle_nut")[0]).toMatchObject({ verdict: "warn" });
  });

  it("backed off to line up is a fault until it is tightened afresh (AC 43.13-1B, 7-40; never back off: common practice)", () => {
    const log = new BenchLog();
    log.read("fastener_torque", NUT, 35);
    log.add("note.made", {
      note: { kind: "castle_state", state: "backed_off", text: "backed it off to line up", place: { rod: 2, nut: "b" } },
    });
    expect(log.of("castle_nut")[0]).toMatchObject({ verdict: "fail", place: NUT });
    log.read("fastener_torque", NUT, 38);
    expect(log.of("castle_nut")[0]).toMatchObject({ verdict: "pass" });
  });

  it("backed off is a fault even where no torque was ever said", () => {
    const log = new BenchLog();
    log.add("note.made", {
      note: { kind: "castle_state", state: "backed_off", text: "backed it off", place: { rod: 1, nut: "a" } },
    });
    expect(log.of("castle_nut")).toMatchObject([{ verdict: "fail", place: { fastener: "rod", rod: 1, nut: "a" } }]);
  });

  describe("below the low torque of 35 (AC 43.13-1B, 7-40 f: alignment starts at the minimum)", () => {
    it("a short slot is not advised forward to, however near it is", () => {
      const log = new BenchLog();
      log.read("fastener_torque", NUT, 30);
      log.read("castle_nut_angle", NUT, 3);
      const [finding] = log.of("castle_nut");
      expect(finding?.verdict).toBe("fail");
      expect(finding?.remedy).toMatch(/^Tighten to 35 ft-lbf first/);
    });

    const backedOff = { kind: "castle_state", state: "backed_off", text: "backed it off", place: NUT } as const;
    const aligned = { kind: "castle_state", state: "aligned", text: "slot lined up", place: NUT } as const;
    type Act = number | typeof backedOff | typeof aligned | { readonly short: number };
    const play = (acts: readonly Act[]) => {
      const log = new BenchLog();
      for (const act of acts) {
        if (typeof act === "number") log.read("fastener_torque", NUT, act);
        else if ("short" in act) log.read("castle_nut_angle", NUT, act.short);
        else log.add("note.made", { note: act });
      }
      return log.of("castle_nut")[0]?.verdict;
    };
    it.each<readonly [string, readonly Act[], string]>([
      ["a lower torque after backing off clears nothing", [40, backedOff, 36], "fail"],
      ["one below the low clears nothing", [35, backedOff, 30], "fail"],
      ["one above the high clears nothing", [35, backedOff, 47], "fail"],
      ["no less than it had clears it", [40, backedOff, 40], "pass"],
      ["a lower torque lines up no short slot", [38, { short: 3 }, 36], "warn"],
      ["nor does one below the low, with a word that it lines up", [35, { short: 22 }, 33, aligned], "fail"],
      ["a higher one does", [35, { short: 3 }, 38], "pass"],
      ["so does the word at a good torque", [36, { short: 3 }, aligned], "pass"],
      ["less than nothing short is asked about", [36, { short: -5 }], "unknown"],
    ])("%s", (_what, acts, verdict) => {
      expect(play(acts)).toBe(verdict);
    });
  });

  it("head nuts have no slots", () => {
    const log = new BenchLog();
    log.read("castle_nut_angle", { fastener: "head", nut: 3 }, 22);
    expect(log.of("castle_nut")).toEqual([]);
  });
});

describe("torque", () => {
  it("stages of the head are held against their own figures, the last one against the range", () => {
    const log = new BenchLog();
    [20, 38, 52].forEach((value, i) => {
      log.read("fastener_torque", { fastener: "head", stage: i + 1 }, value);
    });
    expect(log.of("torque").map((finding) => finding.verdict)).toEqual(["pass", "pass", "pass"]);
    log.read("fastener_torque", { fastener: "head", stage: 3 }, 47);
    log.read("fastener_torque", { fastener: "head", stage: 1 }, 30);
    expect(log.of("torque").map((finding) => finding.verdict)).toEqual(["warn", "pass", "fail"]);
  });
  it("newton metres are held against foot pounds (NIST SP 811: 50 N m is 36.9 ft-lbf)", () => {
    const log = new BenchLog();
    log.read("fastener_torque", NUT, 50, { unit: "N_m", digits: "50" });
    expect(log.of("torque")[0]).toMatchObject({ verdict: "pass", unit: "ft_lbf" });
    expect(log.of("torque")[0]?.value).toBeCloseTo(36.88, 2);
  });
  it("above the range the bolt is in doubt, not just the number", () => {
    const log = new BenchLog();
    log.read("fastener_torque", NUT, 47);
    expect(log.of("torque")[0]?.remedy).toContain("maker's manual");
  });
});

describe("cotters", () => {
  it("one fitted before the nut was tightened again counts no longer", () => {
    const log = new BenchLog();
    log.read("fastener_torque", NUT, 37);
    log.add("note.made", { note: { kind: "cotter", state: "fitted", text: "cotter in", place: NUT } });
    log.add("step.closed", { step: "final_torque" });
    expect(log.of("cotter")[0]?.verdict).toBe("pass");
    log.read("fastener_torque", NUT, 38);
    expect(log.of("cotter")[0]?.verdict).toBe("fail");
    log.photo("cotter", { rod: 2 }, "final_torque");
    expect(log.of("cotter")[0]?.verdict).toBe("pass");
  });
  it("opening the sump step asks for the cotters of every nut", () => {
    const log = new BenchLog();
    for (const main of [1, 2]) log.read("fastener_torque", { fastener: "main", main, nut: "a" }, 75);
    expect(log.of("cotter")).toEqual([]);
    log.add("step.opened", { step: "splash" });
    expect(log.of("cotter").map((finding) => finding.verdict)).toEqual(["fail", "fail"]);
  });
});

describe("order", () => {
  const overhead = { ...DEMO_SPEC, engine: { ...DEMO_SPEC.engine, layout: "overhead_valve" as const } };
  const lash = { cylinder: 2, valve: "exhaust" } as const;
  it("lash before the head is tight is said on an overhead-valve engine only", () => {
    const side = new BenchLog();
    side.read("valve_lash", lash, 0.012);
    expect(side.of("reading_order")).toEqual([]);
    const over = new BenchLog(overhead);
    over.read("valve_lash", lash, 0.012);
    expect(over.of("reading_order")[0]?.verdict).toBe("warn");
    over.read("fastener_torque", { fastener: "head", stage: 3 }, 52);
    expect(over.of("reading_order")[0]?.verdict).toBe("warn");
    over.read("valve_lash", lash, 0.012);
    expect(over.of("reading_order")[0]?.verdict).toBe("pass");
  });
  it("a step that the sheet never mentions may be left out", () => {
    const log = new BenchLog();
    log.add("step.opened", { step: "bores" });
    expect(log.of("step_order")).toEqual([]);
  });
});

describe("what is missing", () => {
  it("is grouped by cylinder, says what waits for a yes, and is asked for at hand-over", () => {
    const log = new BenchLog();
    log.add("step.opened", { step: "rings" });
    log.read("ring_end_gap", { cylinder: 2, ring: "top" }, 0.012);
    log.read("ring_end_gap", { cylinder: 2, ring: "oil" }, 0.012, { do: "confirm" });
    const two = log.of("missing_reading").find((row) => row.place.cylinder === 2 && row.why.startsWith("Ring end gap"));
    expect(two).toMatchObject({ verdict: "unknown", value: 1, limit: "3 readings" });
    expect(two?.why).toBe(
      "Ring end gap of cylinder 2: 2 of 3 readings missing: second ring and oil ring (1 heard, waiting for your yes).",
    );
    expect(log.of("missing_reading").some((row) => row.step === "deck")).toBe(false);
    log.add("step.opened", { step: "hand_over" });
    expect(log.of("missing_reading").some((row) => row.step === "deck")).toBe(true);
  });

  it("a photo is asked for at each place, softly while the step is open and firmly once it is closed", () => {
    const log = new BenchLog();
    log.add("step.opened", { step: "final_torque" });
    log.photo("cotter", { cylinder: 2 }, "final_torque");
    log.photo("cotter", { rod: 4 }, "final_torque");
    const verdicts = () => log.of("missing_photo").map((finding) => [finding.place.rod, finding.verdict]);
    expect(verdicts()).toEqual([
      [1, "unknown"],
      [2, "pass"],
      [3, "unknown"],
      [4, "pass"],
    ]);
    log.add("step.closed", { step: "final_torque" });
    expect(verdicts()).toEqual([
      [1, "fail"],
      [2, "pass"],
      [3, "fail"],
      [4, "pass"],
    ]);
    const photo = log.photo(undefined, { rod: 3 }, "final_torque");
    log.add("photo.filed", { target: photo, place: { rod: 1 }, proof: "cotter" });
    expect(verdicts()[0]).toEqual([1, "pass"]);
  });
});

describe("temperature", () => {
  it("the temperature last said before a size is the one it was read at (ISO 1: 20 degrees)", () => {
    const log = new BenchLog();
    log.read("part_temperature", { part: "block" }, 20);
    log.read("bore_diameter", { cylinder: 1 }, 3.905, { condition: "final" });
    const hot = log.read("part_temperature", { part: "block" }, 29);
    log.read("bore_diameter", { cylinder: 2 }, 3.9054, { condition: "final" });
    const verdicts = () => log.of("temperature").map((finding) => [finding.place.cylinder, finding.verdict]);
    expect(verdicts()).toEqual([
      [1, "pass"],
      [2, "warn"],
    ]);
    expect(log.of("temperature")[1]?.why).toContain("that is 3.90502 in at 20 °C");
    log.add("reading.struck", { target: hot });
    expect(verdicts()[1]).toEqual([2, "pass"]);
  });
});

describe("words", () => {
  const said = (kind: "inspection" | "crack", state: string, text: string) => {
    const log = new BenchLog();
    log.add("note.made", { note: { kind, state, text, place: { rod: 3 } } });
    return log.of("said_fault").map((finding) => finding.verdict);
  };
  it("a failed inspection or a crack is a fault, a good one is none", () => {
    expect(said("inspection", "fail", "rod three is no good")).toEqual(["fail"]);
    expect(said("inspection", "pass", "rod three is good")).toEqual(["pass"]);
    expect(said("crack", "found", "hairline crack in rod three")).toEqual(["fail"]);
    expect(said("crack", "none", "no cracks in rod three")).toEqual(["pass"]);
  });
  it("a pass in words never closes a rule that needs a number", () => {
    const log = new BenchLog();
    log.add("step.opened", { step: "end_float" });
    log.add("note.made", { note: { kind: "inspection", state: "pass", text: "end float is good" } });
    expect(log.of("missing_reading")[0]?.verdict).toBe("unknown");
  });
});
