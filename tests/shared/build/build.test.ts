import fc from "fast-check";
import { describe, expect, it } from "vitest";
import { apply, contextOf, counted, foldBuild, latest, openBuild } from "../../../shared/build/index.ts";
import type { BenchEvent } from "../../../shared/events/events.ts";
import { eventSchema } from "../../../shared/events/events.ts";
import { opened, reading, testStamp } from "../../support/events.ts";

const GAP = { cylinder: 2, ring: "top" } as const;

function start() {
  const stamp = testStamp();
  const build = openBuild(opened(stamp));
  const put = <T extends BenchEvent>(event: T): T => {
    apply(build, event);
    return event;
  };
  const take = (digits: string, more = {}) =>
    put(stamp.make("reading.taken", { reading: reading("ring_end_gap", GAP, digits, more) }));
  return { stamp, build, put, take };
}

describe("a reading in the fold", () => {
  it("counts at once when it was plain", () => {
    const { build, take } = start();
    take("0.012");
    expect(latest(build, "ring_end_gap", GAP)?.reading.digits).toBe("0.012");
  });

  it("waits for a yes when it was not, and counts after it", () => {
    const { build, take, put, stamp } = start();
    const event = take("0.050", { do: "confirm" });
    expect(latest(build, "ring_end_gap", GAP)).toBeUndefined();
    expect([...build.waiting.keys()]).toEqual([event.id]);
    put(stamp.make("reading.confirmed", { target: event.id }));
    expect(latest(build, "ring_end_gap", GAP)?.id).toBe(event.id);
    expect(build.waiting.size).toBe(0);
  });

  it("never counts after a no, even if a late yes arrives", () => {
    const { build, take, put, stamp } = start();
    const event = take("0.050", { do: "confirm" });
    put(stamp.make("reading.rejected", { target: event.id }));
    put(stamp.make("reading.confirmed", { target: event.id }));
    expect(latest(build, "ring_end_gap", GAP)).toBeUndefined();
    expect(build.readings.get(event.id)?.status).toBe("rejected");
  });

  it("is superseded by a later one of the same place and condition, and stands again when that is struck", () => {
    const { build, take, put, stamp } = start();
    const first = take("0.012");
    const second = take("0.013");
    expect(build.readings.get(first.id)?.status).toBe("superseded");
    put(stamp.make("reading.struck", { target: second.id }));
    expect(latest(build, "ring_end_gap", GAP)?.id).toBe(first.id);
  });

  it("confirmed late it stays behind the one taken since, and is evidence only once", () => {
    const { build, take, put, stamp } = start();
    const first = take("0.012", { do: "confirm" });
    take("0.013");
    const last = take("0.014");
    const yes = stamp.make("reading.confirmed", { target: first.id });
    put(yes);
    put(stamp.make("reading.confirmed", { target: first.id }));
    expect(build.readings.get(first.id)?.status).toBe("superseded");
    expect(latest(build, "ring_end_gap", GAP)?.id).toBe(last.id);
    expect(build.readings.get(first.id)?.evidence).toEqual([first.id, yes.id]);
  });

  it("stands beside one of another condition: as found and final are both kept", () => {
    const { build, take } = start();
    take("0.030", { condition: "as_found" });
    take("0.013", { condition: "final" });
    expect(counted(build, "ring_end_gap").map((logged) => logged.reading.digits)).toEqual(["0.030", "0.013"]);
    expect(latest(build, "ring_end_gap", GAP, "as_found")?.reading.digits).toBe("0.030");
  });

  it("keeps what it said before a correction", () => {
    const { build, take, put, stamp } = start();
    const event = take("0.012");
    put(stamp.make("reading.corrected", { target: event.id, reading: reading("ring_end_gap", GAP, "0.013") }));
    const logged = build.readings.get(event.id);
    expect(logged?.reading.digits).toBe("0.013");
    expect(logged?.revisions.map((revision) => revision.reading.digits)).toEqual(["0.012"]);
  });

  it("moves whole when it is re-tagged", () => {
    const { build, take, put, stamp } = start();
    const event = take("0.012");
    put(stamp.make("reading.retagged", { target: event.id, place: { cylinder: 3, ring: "top" } }));
    expect(latest(build, "ring_end_gap", GAP)).toBeUndefined();
    expect(latest(build, "ring_end_gap", { cylinder: 3, ring: "top" })?.id).toBe(event.id);
  });
});

describe("a changed part", () => {
  it.each([
    ["piston", { cylinder: 2 }, "piston_clearance", { cylinder: 2 }, true],
    ["piston", { cylinder: 3 }, "piston_clearance", { cylinder: 2 }, false],
    ["piston", { cylinder: 2 }, "ring_end_gap", GAP, false],
    ["bore", {}, "ring_end_gap", GAP, true],
    ["rod_bearing", { rod: 2 }, "bearing_clearance", { rod: 2 }, true],
    ["rod_bearing", { rod: 2 }, "bearing_clearance", { main: 2 }, false],
    ["main_bearing", {}, "bearing_clearance", { rod: 2 }, false],
    ["rod", { rod: 3 }, "pin_fit_bush", { cylinder: 3 }, true],
    ["rings", { cylinder: 2, ring: "top" }, "ring_end_gap", { cylinder: 2, ring: "oil" }, false],
  ] as const)("%s at %j makes %s at %j stale: %s", (part, place, quantity, at, stale) => {
    const { build, put, stamp } = start();
    const event = put(stamp.make("reading.taken", { reading: reading(quantity, at, "0.004") }));
    put(stamp.make("part.changed", { part, place, what: "exchanged" }));
    expect(build.readings.get(event.id)?.stale !== undefined).toBe(stale);
  });

  it("makes a reading that had given way stale too, so that it does not stand as fresh when the newer one is struck", () => {
    const { build, take, put, stamp } = start();
    const first = take("0.012");
    const second = take("0.013");
    put(stamp.make("part.changed", { part: "rings", place: GAP, what: "filed" }));
    put(stamp.make("reading.struck", { target: second.id }));
    expect(latest(build, "ring_end_gap", GAP)?.id).toBe(first.id);
    expect(latest(build, "ring_end_gap", GAP)?.stale).toBeDefined();
  });

  it("leaves a reading taken afterwards fresh", () => {
    const { build, put, stamp } = start();
    put(stamp.make("part.changed", { part: "piston", place: { cylinder: 2 }, what: "exchanged" }));
    const event = put(stamp.make("reading.taken", { reading: reading("piston_clearance", { cylinder: 2 }, "0.004") }));
    expect(build.readings.get(event.id)?.stale).toBeUndefined();
  });
});

describe("the focus of a device", () => {
  it("gives the next utterance its place, quantity, step and last reading", () => {
    const { build, put, take, stamp } = start();
    put(stamp.make("step.opened", { step: "rings" }));
    take("0.012");
    expect(contextOf(build, "phone")).toEqual({
      quantity: "ring_end_gap",
      place: GAP,
      step: "rings",
      last: { quantity: "ring_end_gap", place: GAP, value: 0.012, unit: "in" },
    });
  });

  it("is each device's own", () => {
    const { build, take } = start();
    take("0.012");
    expect(contextOf(build, "bench PC")).toEqual({});
  });

  it("falls back to the reading before when the last one is struck", () => {
    const { build, take, put, stamp } = start();
    const first = take("0.012");
    const second = put(stamp.make("reading.taken", { reading: reading("ring_end_gap", { cylinder: 3, ring: "top" }, "0.014") }));
    put(stamp.make("reading.struck", { target: second.id }));
    expect(build.focus.get("phone")?.last).toBe(first.id);
  });
});

describe("the fold as a whole", () => {
  it("refuses a log that does not open a build", () => {
    const stamp = testStamp();
    expect(() => foldBuild([stamp.make("step.opened", { step: "rings" })])).toThrow(RangeError);
    expect(() => foldBuild([])).toThrow(RangeError);
  });

  it("takes every event once, however often it is delivered, and gives the same build", () => {
    const stamp = testStamp();
    const log: BenchEvent[] = [opened(stamp)];
    for (const digits of ["0.012", "0.013", "0.014"]) {
      log.push(stamp.make("reading.taken", { reading: reading("ring_end_gap", GAP, digits) }));
    }
    const once = foldBuild(log);
    fc.assert(
      fc.property(fc.array(fc.integer({ min: 1, max: log.length - 1 }), { maxLength: 12 }), (repeats) => {
        const again = foldBuild([...log, ...repeats.flatMap((i) => log[i] ?? [])]);
        expect(again.count).toBe(once.count);
        expect([...again.readings.values()]).toEqual([...once.readings.values()]);
      }),
    );
  });

  it("makes events its own schema accepts, and the schema refuses an unknown field", () => {
    const stamp = testStamp();
    const event = stamp.make("reading.taken", { reading: reading("ring_end_gap", GAP, "0.012") });
    expect(eventSchema.safeParse(event).success).toBe(true);
    expect(eventSchema.safeParse({ ...event, extra: 1 }).success).toBe(false);
    expect(eventSchema.safeParse({ ...event, type: "reading.erased" }).success).toBe(false);
  });
});
