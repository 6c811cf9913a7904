// Filing a photo: what was said wins, then the card in the frame, then where the device stands; a contradiction is asked.
import { describe, expect, it } from "vitest";
import { logPhoto } from "../../../extractors/bench/index.ts";
import { type Build, foldBuild } from "../../../shared/build/build.ts";
import { type BenchEvent, eventSchema, type PhotoFacts } from "../../../shared/events/events.ts";
import { DEMO_SPEC } from "../../../shared/spec/demo-engine.ts";

const BUILD = "01890000-0000-7000-8000-000000000000";
let seq = 0;
const stamp = { build: BUILD, device: "vise", by: "bench", now: () => "2026-03-09T10:05:00+01:00", nextSeq: () => seq++ };
const FACTS: PhotoFacts = {
  sha256: "a".repeat(64),
  bytes: 1000,
  type: "image/jpeg",
  width: 4000,
  height: 3000,
  orientation: 1,
  taken: { at: "2026-03-09T10:05:00+01:00", source: "shutter", zoneKnown: true },
  fingerprint: "00ff00ff00ff00ff",
  focus: 80,
  highlights: 0,
  shadows: 0,
};
const envelope = (type: string, data: unknown): BenchEvent =>
  eventSchema.parse({
    id: `01890000-0000-7000-8000-${String(seq).padStart(12, "0")}`,
    build: BUILD,
    at: stamp.now(),
    device: "vise",
    deviceSeq: seq++,
    by: "bench",
    type,
    data,
  });
const build: Build = foldBuild([
  envelope("build.opened", { name: "filing", spec: DEMO_SPEC }),
  envelope("step.opened", { step: "final_torque" }),
  envelope("place.opened", { place: { rod: 2 } }),
]);
const CARD = { place: { rod: 3 }, step: "teardown", subject: "cap_marks" } as const;

const TABLE: [string, Partial<PhotoFacts>, Parameters<typeof logPhoto>[0]["said"], object, string[]][] = [
  ["nothing said, no card", {}, {}, { place: { rod: 2 }, step: "final_torque" }, []],
  ["a card files it by itself", { card: CARD }, {}, { place: { rod: 3 }, step: "teardown", proof: "cap_marks" }, []],
  ["said and no card", {}, { place: { rod: 4 }, proof: "dipper" }, { place: { rod: 4 }, step: "splash", proof: "dipper" }, []],
  ["a rod heard as a fastening", {}, { place: { fastener: "rod", rod: 4 } }, { place: { rod: 4 }, step: "final_torque" }, []],
  [
    "a rod's nut",
    {},
    { place: { fastener: "rod", rod: 4, nut: "b" } },
    { place: { fastener: "rod", rod: 4, nut: "b" }, step: "final_torque" },
    [],
  ],
  ["card and said agree", { card: CARD }, { place: { rod: 3 } }, { place: { rod: 3 }, step: "teardown", proof: "cap_marks" }, []],
  [
    "card and said disagree",
    { card: CARD },
    { place: { rod: 1 } },
    { place: { rod: 1 }, step: "teardown", proof: "cap_marks" },
    ["card_disagrees"],
  ],
  [
    "a card of another engine's proof",
    { card: { place: { rod: 3 }, subject: "sleeve" } },
    {},
    { place: { rod: 3 }, step: "final_torque" },
    [],
  ],
  [
    "a statement stands beside it",
    {},
    { statement: "marks match" },
    { place: { rod: 2 }, step: "final_torque", statement: "marks match" },
    [],
  ],
];

describe("photos into the log", () => {
  it.each(TABLE)("%s", (_, changes, said, expected, questions) => {
    const photo = { ...FACTS, ...changes };
    const events = logPhoto({ photo, said, build, stamp });
    for (const event of events) expect(eventSchema.safeParse(event).error).toBeUndefined();
    expect(events[0]).toMatchObject({ type: "photo.taken", data: { photo } });
    expect(events[0]?.data).toEqual({ photo, ...expected });
    expect(events.slice(1).map((event) => event.type === "question.asked" && event.data.question.code)).toEqual(questions);
  });
});
