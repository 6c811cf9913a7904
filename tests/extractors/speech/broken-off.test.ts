// A sentence that broke off before its figure, and everyday words that sound like digits: nothing may count.
import { describe, expect, test } from "vitest";
import { CONTEXTS } from "./contexts.ts";
import { expectReadings, read } from "./read.ts";

/** Another rod, bore or ring is open, so that a number taken for a figure would count there. */
const OPEN = [CONTEXTS.none, CONTEXTS.ringGap, CONTEXTS.rodClearance, CONTEXTS.bore];

describe("the only number is the place's: the place is taken up and the figure asked for", () => {
  test.each([
    ["rod three side", "rod_side_clearance", { rod: 3 }],
    ["rod three side clearance", "rod_side_clearance", { rod: 3 }],
    ["side clearance rod three", "rod_side_clearance", { rod: 3 }],
    ["main two clearance", "bearing_clearance", { main: 2 }],
    ["exhaust three lash", "valve_lash", { cylinder: 3, valve: "exhaust" }],
    ["crankpin two taper", "journal_taper", { rod: 2 }],
    ["number two protrusion", "deck_protrusion", { cylinder: 2 }],
    ["ring gap two top", "ring_end_gap", { cylinder: 2, ring: "top" }],
    ["ring gap two", "ring_end_gap", { cylinder: 2 }],
    ["bore two top thrust", "bore_diameter", { cylinder: 2, depth: "top", axis: "thrust" }],
    ["valve lash three exhaust", "valve_lash", { cylinder: 3, valve: "exhaust" }],
    ["compression three", "compression_pressure", { cylinder: 3 }],
    ["rod three side, no good", "rod_side_clearance", { rod: 3 }],
  ] as const)("%s", (text, quantity, place) => {
    for (const context of OPEN) {
      const { parsed, told } = read(text, context);
      expect(parsed.readings, told).toEqual([]);
      expect(parsed.questions, told).toMatchObject([{ code: "need_number", about: { quantities: [quantity], place } }]);
      expect(parsed.commands, told).toMatchObject([{ command: "goto", place }]);
    }
  });

  test.each([
    ["rod three side seven", "rod_side_clearance", { rod: 3 }, "0.007"],
    ["rod three side three", "rod_side_clearance", { rod: 3 }, "0.003"],
    ["exhaust three lash, twelve", "valve_lash", { cylinder: 3, valve: "exhaust" }, "0.012"],
    ["rod three, side clearance four thou", "rod_side_clearance", { rod: 3 }, "0.004"],
  ] as const)("but with its figure it counts: %s", (text, quantity, place, digits) => {
    for (const context of OPEN) {
      const { parsed, told } = expectReadings(text, [[quantity, place, digits, "in"]], context);
      expect(parsed.readings[0]?.do, told).toBe("accept");
    }
  });

  test.each([
    ["protrusion three", CONTEXTS.bore],
    ["clearance two", CONTEXTS.rodClearance],
  ] as const)("what may be a place and may be a figure waits: %s", (text, context) => {
    const { parsed, told } = read(text, context);
    expect(
      parsed.readings.map((reading) => [reading.do, reading.because]),
      told,
    ).toEqual([["confirm", "place_or_figure"]]);
  });

  test.each(["protrusion three thou", "rod one protrusion three", "protrusion, three"])(
    "and where it cannot it counts: %s",
    (text) => {
      const { parsed, told } = read(text, CONTEXTS.bore);
      expect(
        parsed.readings.map((reading) => [reading.do, reading.value]),
        told,
      ).toEqual([["accept", 0.003]]);
    },
  );

  test("a number that the engine has no place for is a figure", () => {
    expectReadings("protrusion piston seventeen", [["deck_protrusion", { cylinder: 2 }, "0.017", "in"]], CONTEXTS.bore);
  });
});

describe("everyday words that sound like digits are no figure that counts", () => {
  const SAID = ["gap", "clearance", "end float", "protrusion", "lash", "compression", "side clearance"];
  test.each([
    "is too small",
    "too tight",
    "is too big",
    "to close",
    "to check",
    "is free",
    "for now",
    "for good",
    "goes to",
    "to finish",
    "down to size",
    "won",
    "ate",
  ])("... %s", (words) => {
    for (const context of OPEN)
      for (const said of SAID) {
        const { parsed, told } = read(`${said} ${words}`, context);
        expect(
          parsed.readings.filter((reading) => reading.do === "accept"),
          told,
        ).toEqual([]);
      }
  });

  test.each([
    ["main one clearance too thou", "bearing_clearance", { main: 1 }, "0.002"],
    ["rod too big end clearance, for thou", "bearing_clearance", { rod: 2 }, "0.004"],
  ] as const)("but with a unit, or behind what they count, they are digits: %s", (text, quantity, place, digits) => {
    expectReadings(text, [[quantity, place, digits, "in"]]);
  });
});

test("a ring's gap at two may be at two o'clock: it waits, and an angle does not", () => {
  const clock = { quantity: "ring_gap_clock", place: CONTEXTS.ringGap.place } as const;
  expect(read("gap at two", clock).parsed.readings.map((reading) => reading.do)).not.toContain("accept");
  const { parsed, told } = read("gap at two degrees", clock);
  expect(
    parsed.readings.map(({ do: done, value, unit }) => [done, value, unit]),
    told,
  ).toEqual([["accept", 2, "deg"]]);
});
