// What rested on a size that has since been cut no longer holds (common practice, no source: it is the difference of two sizes, and one
// of them is another now). Regrinding and boring make clearances, gaps, fits and shims unknown until they are read again.
import { describe, expect, it } from "vitest";
import type { Place } from "../../../shared/places/places.ts";
import type { QuantityId } from "../../../shared/quantities/types.ts";
import { BenchLog } from "./bench-log.ts";

type Read = readonly [quantity: QuantityId, place: Place, value: number, condition?: "as_found" | "machined" | "final"];
const put = (log: BenchLog, [quantity, place, value, condition]: Read) =>
  log.read(quantity, place, value, condition === undefined ? {} : { condition });

/** Rule, the reading that rests on a size, what was known before it, and what was cut after it. */
const CUT: readonly (readonly [rule: string, before: readonly Read[], resting: Read, cut: Read])[] = [
  ["rod_clearance", [], ["bearing_clearance", { rod: 2 }, 0.002], ["journal_undersize", { rod: 2 }, -0.01]],
  [
    "rod_clearance",
    [["crankpin_diameter", { rod: 2 }, 1.8735, "as_found"]],
    ["bearing_clearance", { rod: 2 }, 0.002],
    ["crankpin_diameter", { rod: 2 }, 1.8648, "final"],
  ],
  ["main_clearance", [], ["bearing_clearance", { main: 1 }, 0.002], ["journal_undersize", { main: 1 }, -0.01]],
  ["rod_side_clearance", [], ["rod_side_clearance", { rod: 2 }, 0.008, "final"], ["journal_undersize", { rod: 2 }, -0.01]],
  ["piston_clearance", [], ["piston_clearance", { cylinder: 3 }, 0.004], ["bore_oversize", {}, 0.03]],
  [
    "piston_clearance",
    [["bore_diameter", { cylinder: 3 }, 3.905, "final"]],
    ["piston_clearance", { cylinder: 3 }, 0.004],
    ["bore_diameter", { cylinder: 3 }, 3.906, "final"],
  ],
  ["ring_end_gap", [], ["ring_end_gap", { cylinder: 3, ring: "top" }, 0.013], ["bore_oversize", { cylinder: 3 }, 0.03]],
  [
    "pin_fit_bush",
    [["bush_id", { cylinder: 2 }, 0.8754]],
    ["pin_fit_bush", { cylinder: 2 }, 0.0004],
    ["bush_id", { cylinder: 2 }, 0.876],
  ],
  [
    "guide_clearance_intake",
    [["guide_id", { cylinder: 1, valve: "intake" }, 0.3745]],
    ["valve_guide_clearance", { cylinder: 1, valve: "intake" }, 0.0025],
    ["guide_id", { cylinder: 1, valve: "intake" }, 0.376],
  ],
];

describe("a size cut after what rests on it", () => {
  it.each(CUT)("%s: %j and %j, then %j", (rule, before, resting, cut) => {
    const log = new BenchLog();
    for (const read of before) put(log, read);
    put(log, resting);
    expect(log.of(rule)[0]?.verdict).toBe("pass");
    const target = put(log, cut);
    expect(log.of(rule)[0]).toMatchObject({ verdict: "unknown", remedy: "Measure it again." });
    expect(log.of(rule)[0]?.why).toContain("a part of it was changed since");
    // Taken back, it was never cut.
    log.add("reading.struck", { target });
    expect(log.of(rule)[0]?.verdict).toBe("pass");
  });

  it.each(CUT)("%s holds again once it is read again", (rule, before, resting, cut) => {
    const log = new BenchLog();
    for (const read of [...before, resting, cut, resting]) put(log, read);
    expect(log.of(rule)[0]?.verdict).toBe("pass");
  });

  it("shims are told as well: by what was said, and by the part that was changed", () => {
    const shims = (log: BenchLog) => put(log, ["shim_thickness", { rod: 2, side: "a" }, 0.01, "final"]);
    const ground = new BenchLog();
    shims(ground);
    put(ground, ["journal_undersize", { rod: 2 }, -0.01]);
    expect(ground.of("stale_reading")[0]?.why).toContain("journal undersize at rod 2 is -0.0100 in since");
    const changed = new BenchLog();
    shims(changed);
    changed.add("part.changed", { part: "crank", place: { rod: 2 }, what: "pin two reground" });
    expect(changed.of("stale_reading")[0]?.why).toContain("pin two reground");
  });
});

describe("what does not make it stale", () => {
  const CLEARANCE: Read = ["bearing_clearance", { rod: 2 }, 0.002];
  it.each<readonly [string, readonly Read[]]>([
    ["another pin", [["crankpin_diameter", { rod: 3 }, 1.8735], CLEARANCE, ["journal_undersize", { rod: 3 }, -0.01]]],
    ["the mains", [CLEARANCE, ["journal_undersize", { main: 2 }, -0.01]]],
    [
      "the same size read again",
      [["crankpin_diameter", { rod: 2 }, 1.8735], CLEARANCE, ["crankpin_diameter", { rod: 2 }, 1.8734, "final"]],
    ],
    ["a size known only afterwards", [CLEARANCE, ["crankpin_diameter", { rod: 2 }, 1.8648, "final"]]],
    ["the same step said twice", [["journal_undersize", { rod: 2 }, -0.01], CLEARANCE, ["journal_undersize", { rod: 2 }, -0.01]]],
  ])("%s", (_what, reads) => {
    const log = new BenchLog();
    for (const read of reads) put(log, read);
    expect(log.of("rod_clearance")[0]?.verdict).toBe("pass");
  });
});
