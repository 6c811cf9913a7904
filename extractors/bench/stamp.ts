// The envelope every event of a device gets: identity, clock, and a count that no clock can spoil.
import { v7 } from "uuid";
import type { BenchEvent, EventData, EventType } from "../../shared/events/events.ts";

/** Where events of one device get their names and numbers from. `nextSeq` must never give a number twice. */
export interface Stamp {
  readonly build: string;
  readonly device: string;
  readonly by: string;
  /** ISO 8601 with offset. */
  now(): string;
  nextSeq(): number;
  /** UUID version 7; the default when absent. */
  newId?(): string;
}

/** Make an event of `type` now, on this device. */
export function stampEvent<T extends EventType>(stamp: Stamp, type: T, data: EventData[T]): Extract<BenchEvent, { type: T }> {
  return {
    id: stamp.newId?.() ?? v7(),
    build: stamp.build,
    at: stamp.now(),
    device: stamp.device,
    deviceSeq: stamp.nextSeq(),
    by: stamp.by,
    type,
    data,
  } as Extract<BenchEvent, { type: T }>;
}
