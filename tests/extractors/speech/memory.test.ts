// Context and memory: sticky places, corrections, moved readings, copies, places gone to, commands.
import { describe, expect, test } from "vitest";
import type { Context, Parsed } from "../../../shared/events/reading.ts";
import { CONTEXTS } from "./contexts.ts";
import { expectReadings, read } from "./read.ts";

const gap = (value: string, place: object = { cylinder: 3, ring: "second" }) => [["ring_end_gap", place, value, "in"]] as const;
const commandsOf = (parsed: Parsed) => parsed.commands.map((c) => c.command);

describe("what is not said is kept", () => {
  test.each([
    ["fifteen thou", gap("0.015")],
    ["thirteen and a half", gap("0.0135")],
    ["top, thirteen thou", gap("0.013", { cylinder: 3, ring: "top" })],
    ["number four, twelve thou", gap("0.012", { cylinder: 4, ring: "second" })],
    ["four oil sixteen thou", gap("0.016", { cylinder: 4, ring: "oil" })],
  ] as const)("%s", (text, expected) => {
    const { parsed, told } = expectReadings(text, expected, CONTEXTS.ringGap);
    expect(parsed.readings[0]?.implied, told).toContain("quantity");
  });

  test("a new rod does not keep the nut of the old one", () => {
    const { parsed, told } = expectReadings(
      "rod two, thirty-seven foot pounds",
      [["fastener_torque", { fastener: "rod", rod: 2 }, "37", "ft_lbf"]],
      CONTEXTS.rodNut,
    );
    expect(parsed.readings[0]?.place.nut, told).toBeUndefined();
  });

  test("the angle of a nut is the same nut's", () => {
    expectReadings(
      "twelve degrees short",
      [["castle_nut_angle", { fastener: "rod", rod: 1, nut: "a" }, "12", "deg"]],
      CONTEXTS.rodNut,
    );
  });
});

describe("corrections give the last reading a new value", () => {
  test.each([
    "scratch that, make it fifteen",
    "no, fifteen thou",
    "correction, fifteen",
    "sorry, fifteen thou",
    "I meant fifteen thou",
    "that should be fifteen thou",
    "not fourteen, fifteen",
    "change that to fifteen",
    "wrong, fifteen thou",
  ])("%s", (text) => {
    const { parsed, told } = expectReadings(text, gap("0.015"), CONTEXTS.ringGap);
    expect(commandsOf(parsed), told).toEqual(["correct"]);
  });

  test.each([
    ["ring gap one top fourteen, no, fifteen thou", gap("0.015", { cylinder: 1, ring: "top" })],
    ["ring gap one, no two, top fifteen thou", gap("0.015", { cylinder: 2, ring: "top" })],
    ["ring gap one top fifteen not fourteen thou", gap("0.015", { cylinder: 1, ring: "top" })],
  ] as const)("in the same breath: %s", (text, expected) => {
    const { parsed, told } = expectReadings(text, expected);
    expect(parsed.commands, told).toEqual([]);
  });
});

describe("a reading is moved to the place it was taken at", () => {
  test.each([
    ["no, number four not three", { cylinder: 4 }],
    ["that was cylinder one", { cylinder: 1 }],
    ["no, the top ring", { ring: "top" }],
    ["not the second, the oil", { ring: "oil" }],
    ["move that to cylinder two", { cylinder: 2 }],
  ])("%s", (text, place) => {
    const { parsed, told } = read(text, CONTEXTS.ringGap);
    expect(parsed.readings, told).toEqual([]);
    expect(parsed.commands, told).toMatchObject([{ command: "retag", place }]);
  });

  test("but not to a place the engine does not have", () => {
    const { parsed, told } = read("no, cylinder six", CONTEXTS.ringGap);
    expect(parsed.commands, told).toEqual([]);
    expect(
      parsed.questions.map((q) => q.code),
      told,
    ).toEqual(["no_such_place"]);
  });
});

describe("copies wait for a yes", () => {
  test.each([
    ["same on four", [{ cylinder: 4, ring: "second" }]],
    ["ditto for number one", [{ cylinder: 1, ring: "second" }]],
    ["same on one and two", [{ cylinder: 1 }, { cylinder: 2 }]],
    ["same on the oil ring", [{ cylinder: 3, ring: "oil" }]],
    ["the rest are the same", [{ cylinder: 1 }, { cylinder: 2 }, { cylinder: 4 }]],
  ])("%s", (text, places) => {
    const { parsed, told } = read(text, CONTEXTS.ringGap);
    expect(
      parsed.readings.map((r) => r.place),
      told,
    ).toMatchObject(places);
    for (const reading of parsed.readings) expect([reading.value, reading.do], told).toEqual([0.014, "confirm"]);
    expect(commandsOf(parsed), told).toEqual(["copy"]);
  });

  test("with nothing to copy it asks", () => {
    expect(read("same on three").parsed.questions.map((q) => q.code)).toEqual(["nothing_to_copy"]);
  });
});

describe("commands", () => {
  const said: Record<string, readonly string[]> = {
    undo: ["undo", "scratch that", "delete that last reading", "take that back", "oops, scrub that"],
    confirm: ["confirm", "yes", "correct", "that's right", "yes, keep it"],
    reject: ["wrong", "no", "that's not right", "no, that's wrong"],
    next: ["next", "next cylinder", "on to the next one", "okay next please", "move on to the next"],
    repeat: ["say again", "repeat that", "read that back", "what was that"],
    photo: ["photo", "take a picture", "get a photo of this", "snap that"],
    pause: ["pause", "stop listening", "stand by"],
    resume: ["resume", "start listening", "carry on"],
    done: ["done", "that's it", "step done", "all finished"],
  };
  test.each(Object.entries(said).flatMap(([command, texts]) => texts.map((text) => [text, command] as const)))(
    "%s: %s",
    (text, command) => {
      const { parsed, told } = read(text, CONTEXTS.ringGap);
      expect(commandsOf(parsed), told).toEqual([command]);
      expect([parsed.readings, parsed.questions], told).toEqual([[], []]);
    },
  );

  test.each([
    ["open rings", "step", "rings"],
    ["start main bearings", "step", "main_bearings"],
    ["moving on to the valves", "step", "valves"],
    ["rings done", "done", "rings"],
    ["open the ring gap step", "step", "rings"],
    ["start tappets", "step", "valves"],
    ["go to the compression test", "step", "first_run"],
    ["finished with the pistons", "done", "pistons"],
  ])("%s: %s %s", (text, command, step) => {
    expect(read(text).parsed.commands).toMatchObject([{ command, step }]);
  });

  test.each([
    ["cylinder two", { cylinder: 2 }],
    ["go to main three", { main: 3 }],
    ["rod four nut A", { rod: 4, nut: "a", fastener: "rod" }],
    ["exhaust one", { cylinder: 1, valve: "exhaust" }],
    ["now number four second ring", { cylinder: 4, ring: "second" }],
  ])("goes to a place said alone: %s", (text, place) => {
    expect(read(text, CONTEXTS.ringGap).parsed.commands).toMatchObject([{ command: "goto", place }]);
  });

  test("a photo may name what it is of", () => {
    expect(read("take a photo of rod three").parsed.commands).toMatchObject([{ command: "photo", place: { rod: 3 } }]);
  });

  test("a command and a reading may share a sentence", () => {
    const { parsed, told } = expectReadings(
      "confirm, ring gap one top twelve thou",
      gap("0.012", { cylinder: 1, ring: "top" }),
      CONTEXTS.ringGap,
    );
    expect(commandsOf(parsed), told).toEqual(["confirm"]);
  });
});

describe("notes", () => {
  test.each([
    ["note, small nick on the fillet", "text", undefined, {}],
    ["backed it off to line up", "castle_state", "backed_off", CONTEXTS.rodNut],
    ["slot lined up on rod three nut A", "castle_state", "aligned", {}],
    ["cotter fitted rod two nut A", "cotter", "fitted", {}],
    ["number two is good", "inspection", "pass", {}],
    ["marks match, dipper to the front", "statement", undefined, {}],
    ["new piston in three", "part_changed", "changed", {}],
    ["no cracks in rod three", "crack", "none", {}],
  ] as const)("%s", (text, kind, state, context) => {
    const { parsed, told } = read(text, context as Context);
    expect(parsed.readings, told).toEqual([]);
    expect(
      parsed.notes.map((n) => [n.kind, n.state]),
      told,
    ).toEqual([[kind, state]]);
  });

  test("a crack is always asked about: it sounds like a crank", () => {
    const { parsed, told } = read("crack in the block");
    expect(parsed.notes[0]?.kind, told).toBe("crack");
    expect(parsed.questions[0]?.options, told).toEqual(["crack", "crank"]);
  });
});
