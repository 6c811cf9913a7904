// The photo rule: it trips on its fault, goes when the fault is mended, and says the same event by event as from the start.
import { describe, expect, it } from "vitest";
import { foldBuild } from "../../../shared/build/build.ts";
import type { EventData } from "../../../shared/events/events.ts";
import { Evaluator } from "../../../shared/rules/evaluator.ts";
import { evaluate } from "../../../shared/rules/index.ts";
import { BenchLog } from "./bench-log.ts";

type Taken = EventData["photo.taken"];
const shot = (n: number, changes: Partial<Taken["photo"]> = {}): Taken["photo"] => ({
  sha256: String(n).repeat(64).slice(0, 64),
  bytes: 1000,
  type: "image/jpeg",
  width: 4000,
  height: 3000,
  orientation: 1,
  taken: { at: "2026-01-05T09:00:00Z", source: "shutter", zoneKnown: true },
  fingerprint: String(n).repeat(16).slice(0, 16),
  focus: 80,
  highlights: 0,
  shadows: 0,
  ...changes,
});
const strip = (rod: number, photo: Taken["photo"]): Taken => ({ photo, place: { rod }, step: "rod_fit", proof: "gauge_strip" });

function story(): BenchLog {
  const log = new BenchLog();
  log.add("step.opened", { step: "rod_fit" });
  log.add("photo.taken", strip(1, shot(1)));
  log.add("photo.taken", strip(2, shot(2, { focus: 1 })));
  log.add("photo.taken", strip(2, shot(3)));
  const twin = log.add("photo.taken", strip(3, shot(4, { fingerprint: shot(1).fingerprint })));
  log.add("photo.taken", strip(4, shot(5, { taken: { at: "2026-01-01T00:00:00Z", source: "exif_original", zoneKnown: true } })));
  log.add("photo.filed", { target: twin, place: { rod: 1 }, proof: "gauge_strip" });
  return log;
}

describe("doubtful photos", () => {
  const doubts = (log: BenchLog) =>
    log.of("photo_doubt").map(({ place, why }) => [place.rod, /same file|fingerprint|Taken|Focus/.exec(why)?.[0]]);

  it("warns of the newest photo at each place only", () => {
    const log = story();
    log.events.pop();
    expect(doubts(log)).toEqual([
      [3, "fingerprint"],
      [4, "Taken"],
    ]);
    for (const finding of log.of("photo_doubt")) expect(finding).toMatchObject({ verdict: "warn", evidence: expect.any(Array) });
  });

  it("goes when the photo is filed where it belongs", () => {
    expect(doubts(story())).toEqual([[4, "Taken"]]);
  });

  it("is the same event by event as from the start", () => {
    const { events } = story();
    const evaluator = new Evaluator(foldBuild(events.slice(0, 1)));
    for (const [index, event] of events.entries()) {
      if (index === 0) continue;
      evaluator.apply(event);
      expect(evaluator.findings()).toEqual(evaluate(foldBuild(events.slice(0, index + 1))));
    }
  });
});
