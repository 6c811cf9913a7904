// What the device shows is what the shop will hold: confirmed events in the shop's order, then those that still wait.
import { describe, expect, it } from "vitest";
import { foldBuild } from "../../../shared/build/index.ts";
import type { BenchEvent, StoredEvent } from "../../../shared/events/events.ts";
import { evaluate } from "../../../shared/rules/index.ts";
import { Fold } from "../../../web/store/fold.ts";
import { opened, reading, testStamp } from "../../support/events.ts";

const stamp = testStamp();
const take = (cylinder: number, digits: string, device = stamp) =>
  device.make("reading.taken", { reading: reading("ring_end_gap", { cylinder, ring: "top" }, digits) });
const stored = (events: readonly BenchEvent[]): StoredEvent[] =>
  events.map((event, index) => ({ seq: index + 1, hash: String(index), receivedAt: event.at, event }));

describe("the fold of a build on this device", () => {
  it("shows what waits after what is confirmed, and takes a confirmation in place", () => {
    const open = opened(stamp);
    const mine = [take(1, "0.012"), take(2, "0.014")];
    const fold = new Fold();
    fold.confirm(stored([open]));
    fold.add(mine);
    expect(fold.rows().map(({ seq }) => seq)).toEqual([1, undefined, undefined]);
    expect(fold.build?.readings.size).toBe(2);
    fold.confirm(stored([open, ...mine]));
    expect(fold.rows().map(({ seq }) => seq)).toEqual([1, 2, 3]);
    expect(fold.pending).toEqual([]);
  });

  it("takes the shop's order when another device got in between", () => {
    const open = opened(stamp);
    const other = testStamp("desk", stamp.build);
    const mine = take(1, "0.012");
    const theirs = take(1, "0.016", other);
    const fold = new Fold();
    fold.confirm(stored([open]));
    fold.add([mine]);
    // The shop has theirs first: mine is the newer one and counts.
    fold.confirm(stored([open, theirs]));
    expect(fold.rows().map(({ event }) => event.id)).toEqual([open.id, theirs.id, mine.id]);
    expect(fold.build?.readings.get(mine.id)?.status).toBe("counted");
    expect(fold.build?.readings.get(theirs.id)?.status).toBe("superseded");
    const whole = foldBuild([open, theirs, mine]);
    fold.confirm(stored([open, theirs, mine]));
    expect(fold.findings()).toEqual(evaluate(whole));
  });

  it("keeps findings up to date event by event, equal to a whole evaluation", () => {
    const open = opened(stamp);
    const fold = new Fold();
    fold.confirm(stored([open]));
    expect(fold.findings()).toEqual([]);
    const events = [stamp.make("step.opened", { step: "rings" }), take(1, "0.009"), take(2, "0.014"), take(1, "0.013")];
    for (const event of events) {
      fold.add([event]);
      fold.findings();
    }
    expect(fold.findings()).toEqual(evaluate(foldBuild([open, ...events])));
  });

  it("says when a confirmed row is missing in between", () => {
    const open = opened(stamp);
    const rows = stored([open, take(1, "0.012"), take(2, "0.012")]);
    const fold = new Fold();
    const [first, , third] = rows;
    expect(fold.confirm(first === undefined ? [] : [first])).toBe(true);
    expect(fold.confirm(third === undefined ? [] : [third])).toBe(false);
    expect(fold.confirm(rows)).toBe(true);
    expect(fold.head?.seq).toBe(3);
  });

  it("lets go of what the shop refused", () => {
    const open = opened(stamp);
    const bad = take(1, "0.012");
    const fold = new Fold();
    fold.confirm(stored([open]));
    fold.add([bad]);
    fold.drop(new Set([bad.id]));
    expect(fold.build?.readings.size).toBe(0);
  });
});
