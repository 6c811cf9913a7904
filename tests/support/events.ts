// Makes events for tests on a scripted clock, numbered as a device would.
import { v7 } from "uuid";
import { type Stamp, stampEvent } from "../../extractors/bench/stamp.ts";
import type { BenchEvent, EventData, EventType } from "../../shared/events/events.ts";
import type { Reading } from "../../shared/events/reading.ts";
import { DEMO_SPEC } from "../../shared/spec/demo-engine.ts";
import type { Spec } from "../../shared/spec/spec.ts";

export interface TestStamp extends Stamp {
  make<T extends EventType>(type: T, data: EventData[T]): Extract<BenchEvent, { type: T }>;
}

/** A device whose clock moves one minute an event. */
export function testStamp(device = "phone", build: string = v7()): TestStamp {
  let seq = 0;
  let minute = 0;
  const stamp: Stamp = {
    build,
    device,
    by: "bench",
    now: () => new Date(Date.UTC(2026, 2, 2, 8, minute++)).toISOString(),
    nextSeq: () => seq++,
  };
  return { ...stamp, make: (type, data) => stampEvent(stamp, type, data) };
}

/** The event that opens a build of the demo engine, or of another. */
export function opened(stamp: TestStamp, spec: Spec = DEMO_SPEC) {
  return stamp.make("build.opened", { name: "test build", spec });
}

/** A plain accepted reading; fields may be overridden. */
export function reading(
  quantity: Reading["quantity"],
  place: Reading["place"],
  digits: string,
  more: Partial<Reading> = {},
): Reading {
  return { quantity, place, value: Number(digits), unit: "in", digits, implied: [], do: "accept", span: [0, 1], ...more };
}
