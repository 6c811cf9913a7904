// What-if: supposed numbers beside today's, with nothing of the build touched.
import { describe, expect, it } from "vitest";
import { evaluate, whatIf } from "../../../shared/rules/index.ts";
import { BenchLog } from "./bench-log.ts";

function trouble(): BenchLog {
  const log = new BenchLog();
  log.read("bore_oversize", {}, 0.03);
  log.read("bearing_clearance", { rod: 2 }, 0.0045);
  log.read("deck_protrusion", { cylinder: 3 }, 0.031);
  log.read("chamber_volume", { cylinder: 3 }, 221);
  log.read("chamber_volume", { cylinder: 2 }, 225.5);
  log.read("bore_diameter", { cylinder: 1 }, 3.905, { condition: "final" });
  log.read("piston_skirt_diameter", { cylinder: 1 }, 3.9012);
  return log;
}

const moved = (log: BenchLog, ...changes: Parameters<typeof whatIf>[1]) =>
  whatIf(log.fold(), changes).outcomes.map(({ rule, before, after }) => [rule, before?.verdict, after?.verdict]);

describe("what if", () => {
  it("a lamination comes out of each side", () => {
    const result = whatIf(trouble().fold(), [{ kind: "shims", place: { rod: 2 }, removeEachSide: 0.002 }]);
    expect(result.outcomes).toMatchObject([
      { rule: "rod_clearance", before: { verdict: "fail", value: 0.0045 }, after: { verdict: "pass", value: 0.0025 } },
    ]);
  });

  it("another piston and a relieved chamber: every figure that hangs on them moves", () => {
    const outcomes = moved(
      trouble(),
      { kind: "reading", quantity: "deck_protrusion", place: { cylinder: 3 }, value: 0.013 },
      { kind: "reading", quantity: "chamber_volume", place: { cylinder: 3 }, value: 224 },
    );
    expect(outcomes).toEqual(
      expect.arrayContaining([
        ["piston_to_head", "fail", "pass"],
        ["compression_ratio", "fail", "pass"],
        ["chamber_volume", "fail", "pass"],
        ["chamber_spread", "fail", "pass"],
        ["deck_protrusion", "warn", "pass"],
      ]),
    );
    expect(outcomes.some(([rule]) => rule === "rod_clearance")).toBe(false);
  });

  it("a thicker gasket alone: room enough, ratio lower", () => {
    const { outcomes } = whatIf(trouble().fold(), [{ kind: "reading", quantity: "gasket_thickness", place: {}, value: 0.066 }]);
    const of = (rule: string) => outcomes.find((row) => row.rule === rule);
    expect(of("piston_to_head")).toMatchObject({ before: { value: 0.037 }, after: { value: 0.045, verdict: "pass" } });
    expect(of("compression_ratio")?.after?.value).toBeLessThan(of("compression_ratio")?.before?.value ?? 0);
  });

  it("the next oversize: clearance to the pistons at hand", () => {
    const { outcomes } = whatIf(trouble().fold(), [{ kind: "bore", oversize: 0.04 }]);
    expect(outcomes.find((row) => row.rule === "piston_clearance")).toMatchObject({
      before: { value: 0.0038, verdict: "pass" },
      after: { value: 0.0138, verdict: "fail" },
    });
  });

  it("touches nothing of the build", () => {
    const build = trouble().fold();
    const before = structuredClone(build);
    const findings = evaluate(build);
    whatIf(build, [
      { kind: "bore", oversize: 0.06 },
      { kind: "shims", place: { rod: 2 }, removeEachSide: 0.001 },
    ]);
    expect(build).toEqual(before);
    expect(evaluate(build)).toEqual(findings);
  });

  it("refuses what the build does not know", () => {
    expect(() => whatIf(trouble().fold(), [{ kind: "shims", place: { main: 1 }, removeEachSide: 0.001 }])).toThrow(
      "Expected a bearing clearance on record at main=1, got none",
    );
  });
});
