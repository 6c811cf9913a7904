// The two size decisions: the worst reading decides, and it is said why.
import { describe, expect, it } from "vitest";
import { FIGURES } from "../../../shared/rules/figures/figures.ts";
import { decideBore, decideGrind } from "../../../shared/rules/index.ts";
import { REMEDIES } from "../../../shared/rules/remedies/remedies.ts";
import { BenchLog } from "./bench-log.ts";
import { bore } from "./scenes.ts";

describe("bores", () => {
  it("nothing read, nothing decided", () => {
    expect(decideBore(new BenchLog().fold())).toBeUndefined();
  });
  it("a score may ask for more than the largest reading", () => {
    const log = new BenchLog();
    bore(log, 3, [3.8885, 3.8838, 3.8826, 3.8806, 3.8774, 3.8767]);
    expect(decideBore(log.fold())).toMatchObject({ step: 0.02, size: 3.895, needed: 3.8925, worst: 3.8885 });
    log.read("score_depth", { cylinder: 3, depth: "middle", axis: "thrust" }, 0.006, { condition: "as_found" });
    const decision = decideBore(log.fold());
    expect(decision).toMatchObject({ step: 0.03, size: 3.905, needed: 3.8986 });
    expect(decision?.why).toBe(
      "largest reading 3.8885, a score 0.0060 deep at 3.8826: needs 3.8986 to clean up; +0.030 makes 3.9050. All cylinders to one size.",
    );
  });
  it("the finished bores do not change what was decided from the bores as found", () => {
    const log = new BenchLog();
    bore(log, 1, [3.8832, 3.8801, 3.8802, 3.8788, 3.8768, 3.8763]);
    const before = decideBore(log.fold());
    log.read("bore_diameter", { cylinder: 1 }, 3.905, { condition: "final" });
    expect(decideBore(log.fold())).toEqual(before);
  });
  it("worn past the last oversize it says so and gives no size", () => {
    const log = new BenchLog();
    bore(log, 1, [3.94, 3.939, 3.938, 3.937, 3.936, 3.935]);
    expect(decideBore(log.fold())).toMatchObject({ step: undefined, size: undefined });
    expect(decideBore(log.fold())?.why).toContain("sleeve");
  });
});

describe("journals", () => {
  it("the smallest crankpin less its out-of-round decides for the set", () => {
    const log = new BenchLog();
    log.read("crankpin_diameter", { rod: 1 }, 1.8738);
    log.read("crankpin_diameter", { rod: 3 }, 1.8722);
    log.read("journal_out_of_round", { rod: 3 }, 0.0018);
    expect(decideGrind(log.fold(), "crankpins")).toMatchObject({ worst: 1.8704, needed: 1.8694, step: 0.01, size: 1.865 });
    expect(decideGrind(log.fold(), "mains")).toBeUndefined();
  });
  it("a set that goes to the grinder is no longer held against what it was, the other set still is", () => {
    const log = new BenchLog();
    for (const place of [{ rod: 3 }, { main: 2 }]) log.read("journal_out_of_round", place, 0.0018);
    const utterance = log.add("utterance.heard", { text: "crankpins ten under", by: "voice" });
    log.add("reading.taken", {
      utterance,
      reading: {
        quantity: "journal_undersize",
        place: {},
        value: -0.01,
        unit: "in",
        digits: "-0.010",
        implied: [],
        do: "accept",
        span: [0, 1],
      },
    });
    const settled = log.of("journal_out_of_round").map((finding) => [finding.place, finding.settled !== undefined]);
    expect(settled).toEqual([
      [{ main: 2 }, false],
      [{ rod: 3 }, true],
    ]);
  });
});

describe("remedies", () => {
  it("each is for a figure there is", () => {
    for (const id of Object.keys(REMEDIES)) expect([...FIGURES.keys()]).toContain(id);
  });
});
