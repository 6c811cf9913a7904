// What a log holds and the build cannot count: kept under its name, touching nothing else.
import type { BenchEvent } from "../events/events.ts";
import type { Build, SetAside, Touched } from "./types.ts";

export function setAside(build: Build, event: BenchEvent, code: SetAside["code"], say: string): Touched {
  build.setAside.push({ id: event.id, order: build.count, at: event.at, type: event.type, code, say });
  return [];
}
