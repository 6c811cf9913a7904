import { describe, expect, it } from "vitest";
import { logUtterance, nextPlace, stampEvent } from "../../../extractors/bench/index.ts";
import { parse } from "../../../extractors/speech/index.ts";
import { apply, contextOf, latest, openBuild } from "../../../shared/build/index.ts";
import type { Command, Parsed } from "../../../shared/events/reading.ts";
import { DEMO_SPEC } from "../../../shared/spec/demo-engine.ts";
import { opened, reading, testStamp } from "../../support/events.ts";

const parsed = (more: Partial<Parsed>): Parsed => ({
  text: "said",
  readings: [],
  questions: [],
  commands: [],
  notes: [],
  unread: [],
  ...more,
});
const GAP = { cylinder: 2, ring: "top" } as const;

function bench() {
  const stamp = testStamp();
  const build = openBuild(opened(stamp));
  const say = (what: Partial<Parsed>, keep = false) => {
    const logged = logUtterance({ parsed: parsed(what), build, stamp, heard: { by: "typed" }, keep });
    for (const event of logged.events) apply(build, event);
    return logged;
  };
  const command = (name: Command["command"], more: Partial<Command> = {}) => say({ commands: [{ command: name, ...more }] });
  return { stamp, build, say, command };
}

describe("an utterance becomes events", () => {
  it("files a reading under the open step, with its utterance", () => {
    const { build, say, command } = bench();
    command("step", { step: "rings" });
    say({ readings: [reading("ring_end_gap", GAP, "0.012")] });
    const logged = latest(build, "ring_end_gap", GAP);
    expect(logged?.step).toBe("rings");
    expect(logged?.utterance).toBeDefined();
  });

  it("gives nothing for talk that is not for the book", () => {
    expect(bench().say({ unread: ["hand", "me", "that", "rag"] }).events).toEqual([]);
  });

  it("keeps the utterance of a clip handed in on purpose, even when nothing was made of it", () => {
    expect(
      bench()
        .say({}, true)
        .events.map((event) => event.type),
    ).toEqual(["utterance.heard"]);
  });

  it("asks aloud what the parser asks", () => {
    const logged = bench().say({ questions: [{ code: "which_cylinder", say: "which cylinder" }] });
    expect(logged.say).toEqual(["which cylinder"]);
    expect(logged.events.map((event) => event.type)).toEqual(["utterance.heard", "question.asked"]);
  });
});

describe("what broke off before its figure is in hand for the next one", () => {
  const talk = (sentences: readonly string[]) => {
    const { build, say, stamp } = bench();
    for (const text of sentences) say(parse(text, contextOf(build, stamp.device), DEMO_SPEC));
    return [...build.readings.values()].map(({ reading: { quantity, place, value } }) => ({ quantity, place, value }));
  };
  const first = { quantity: "bearing_clearance", place: { rod: 2 }, value: 0.002 };

  it.each([
    ["rod three side", "seven thou", { quantity: "rod_side_clearance", place: { rod: 3 }, value: 0.007 }],
    ["exhaust three lash", "twelve thou", { quantity: "valve_lash", place: { cylinder: 3, valve: "exhaust" }, value: 0.012 }],
    ["end float", "four thou", { quantity: "crank_end_float", place: {}, value: 0.004 }],
    ["clearance main two", "two and a half thou", { quantity: "bearing_clearance", place: { main: 2 }, value: 0.0025 }],
  ])("%s ... %s", (begun, figure, filed) => {
    expect(talk(["rod two clearance, two thou", begun, figure])).toEqual([first, filed]);
  });

  it("is of nothing where two things go by the name", () => {
    expect(talk(["rod two clearance, two thou", "gap", "two thou"])).toEqual([first]);
  });
});

describe("commands act on the device's own last reading", () => {
  it("corrects it in place", () => {
    const { build, say } = bench();
    say({ readings: [reading("ring_end_gap", GAP, "0.012")] });
    say({ commands: [{ command: "correct" }], readings: [reading("ring_end_gap", GAP, "0.013")] });
    expect(build.readings.size).toBe(1);
    expect(latest(build, "ring_end_gap", GAP)?.reading.digits).toBe("0.013");
  });

  it("takes a correction with nothing before it as a reading, so that the figure is not lost", () => {
    const { build, say } = bench();
    say({ commands: [{ command: "correct" }], readings: [reading("ring_end_gap", GAP, "0.013")] });
    expect(latest(build, "ring_end_gap", GAP)?.reading.digits).toBe("0.013");
  });

  it("confirms the waiting reading, or says that none waits", () => {
    const { build, say, command } = bench();
    expect(command("confirm").say).toEqual(["nothing waiting"]);
    say({ readings: [reading("ring_end_gap", GAP, "0.050", { do: "confirm" })] });
    command("confirm");
    expect(latest(build, "ring_end_gap", GAP)?.reading.digits).toBe("0.050");
  });

  it("'wrong' drops the waiting reading; with none waiting it strikes the one just said back", () => {
    const { build, say, command } = bench();
    say({ readings: [reading("ring_end_gap", GAP, "0.012")] });
    say({ readings: [reading("ring_end_gap", GAP, "0.050", { do: "confirm" })] });
    command("reject");
    expect([...build.readings.values()].map((logged) => logged.status)).toEqual(["counted", "rejected"]);
    command("undo");
    command("undo");
    expect(latest(build, "ring_end_gap", GAP)).toBeUndefined();
  });

  it("moves a rod's reading to the rod said, though the number came as a cylinder's", () => {
    const { build, say, command } = bench();
    say({ readings: [reading("bearing_clearance", { rod: 2 }, "0.002")] });
    command("retag", { place: { cylinder: 3 } });
    expect(latest(build, "bearing_clearance", { rod: 3 })?.reading.digits).toBe("0.002");
  });

  it("does not touch another device's readings", () => {
    const { build, say } = bench();
    say({ readings: [reading("ring_end_gap", GAP, "0.012")] });
    const other = testStamp("bench PC", build.id);
    const logged = logUtterance({
      parsed: parsed({ commands: [{ command: "undo" }] }),
      build,
      stamp: other,
      heard: { by: "voice" },
    });
    expect(logged.say).toEqual(["nothing to strike"]);
  });
});

describe("next", () => {
  it.each([
    [{}, { cylinder: 1 }],
    [{ cylinder: 2, ring: "top" }, { cylinder: 3 }],
    [
      { rod: 3, fastener: "rod", nut: "b" },
      { fastener: "rod", rod: 4 },
    ],
    [{ main: 3 }, undefined],
    [{ cylinder: 4 }, undefined],
  ] as const)("after %j goes to %j", (place, expected) => {
    expect(nextPlace({ place }, DEMO_SPEC.engine)).toEqual(expected);
  });
});

describe("the stamp", () => {
  it("makes a version 7 UUID (RFC 9562) and counts up by one", () => {
    const stamp = testStamp();
    const [a, b] = [stampEvent(stamp, "step.opened", { step: "rings" }), stampEvent(stamp, "step.opened", { step: "deck" })];
    expect(a.id).toMatch(/^[0-9a-f]{8}-[0-9a-f]{4}-7[0-9a-f]{3}-[89ab][0-9a-f]{3}-[0-9a-f]{12}$/);
    expect(b.deviceSeq - a.deviceSeq).toBe(1);
  });
});
