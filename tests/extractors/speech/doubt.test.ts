// Never silently wrong: mis-hearings, doubtful numbers, unusual values, several figures, and talk.
import { describe, expect, test } from "vitest";
import { CONTEXTS } from "./contexts.ts";
import { expectReadings, read } from "./read.ts";

describe("misheard words are put back inside a slot", () => {
  test.each([
    ["ring cap one top thirteen thou", "ring_end_gap", { cylinder: 1, ring: "top" }, "0.013"],
    ["ring gap number won top thirteen though", "ring_end_gap", { cylinder: 1, ring: "top" }, "0.013"],
    ["ring gap for top thirteen thou", "ring_end_gap", { cylinder: 4, ring: "top" }, "0.013"],
    ["boar three top thrust 39052", "bore_diameter", { cylinder: 3, depth: "top", axis: "thrust" }, "3.9052"],
    ["mane one clearance too thou", "bearing_clearance", { main: 1 }, "0.002"],
    ["gym main too b side ten thou", "shim_thickness", { main: 2, side: "b" }, "0.010"],
    ["crankpin three one ate six four seven", "crankpin_diameter", { rod: 3 }, "1.8647"],
    ["seat with intake two a sixteenth", "valve_seat_width", { cylinder: 2, valve: "intake" }, "0.0625"],
    ["five tense taper main too", "journal_taper", { main: 2 }, "0.0005"],
    ["crank journal 2 1998", "main_journal_diameter", { main: 2 }, "1.998"],
    ["main two clearance too and a half thou", "bearing_clearance", { main: 2 }, "0.0025"],
    ["main one clearance a thou and for tenths", "bearing_clearance", { main: 1 }, "0.0014"],
    ["clearance rod one tree and a half thou", "bearing_clearance", { rod: 1 }, "0.0035"],
    ["exhaust one flash eleven thou", "valve_lash", { cylinder: 1, valve: "exhaust" }, "0.011"],
  ] as const)("%s", (text, quantity, place, digits) => {
    expectReadings(text, [[quantity, place, digits, "in"]]);
  });

  test.each(["ring gap one top 13,000", "ring gap one top thirteen thousand"])(
    "a thousand for a thou waits for a yes: %s",
    (text) => {
      const { parsed, told } = expectReadings(text, [["ring_end_gap", { cylinder: 1, ring: "top" }, "0.013", "in"]]);
      expect(parsed.readings[0]?.do, told).toBe("confirm");
    },
  );

  test("have a thou, with nobody having it, is half a thou and waits", () => {
    const { parsed, told } = expectReadings("have a thou taper main two", [["journal_taper", { main: 2 }, "0.0005", "in"]]);
    expect(read("I have a thou taper on main two").parsed.readings[0]?.value, told).toBe(0.001);
    expect(parsed.readings.length, told).toBe(1);
  });
});

describe("unusual readings wait for a yes", () => {
  test.each([
    ["ring gap one top sixty thou", "out_of_band"],
    ["main three clearance thirty thou", "out_of_band"],
    ["main journal two one nine nine eight", "digits"],
    ["bore three top thrust three nine oh five", "digits"],
    ["main three clearance two and a quarter thou", "too_fine"],
    ["rod two, three thou", "guessed_quantity"],
    ["rod one nut A thirty-six pounds", "unit"],
    ["pin fit two three tenths over", "sign"],
    ["bored forty over on number two", "one_place"],
    ["I think ring gap one top is thirteen thou", "hedged"],
    ["stem exhaust two three nine oh five", "digits"],
    ["rod three nut D thirty-five foot pounds", "stray_words"],
    ["so and a half thou clearance, rod two", "repaired"],
    ["ring gap one top, won too thou", "repaired"],
  ])("%s: %s", (text, because) => {
    const { parsed, told } = read(text);
    expect(
      parsed.readings.map((r) => [r.do, r.because]),
      told,
    ).toEqual([["confirm", because]]);
  });

  test("a fifty that may have been fifteen offers both", () => {
    const { parsed, told } = read("ring gap one top fifty thou");
    expect(parsed.questions[0]?.options, told).toEqual(["0.05", "0.015"]);
  });
});

describe("what cannot be told is asked", () => {
  test.each([
    ["about two thou", "approximate"],
    ["a couple of thou", "approximate"],
    ["just under two thou", "approximate"],
    ["between two and three thou", "range"],
    ["two to three thou", "range"],
    ["two or three thou", "range"],
    ["one half tenths", "doubtful_number"],
    ["minus two thou", "impossible_sign"],
    ["twenty foot pounds", "which_fastener"],
    ["rod three clearance twenty foot pounds", "impossible_unit"],
  ])("%s: %s", (text, code) => {
    const { parsed, told } = read(text, CONTEXTS.rodClearance);
    expect(
      parsed.readings.filter((r) => r.do === "accept"),
      told,
    ).toEqual([]);
    expect(
      parsed.questions.map((q) => q.code),
      told,
    ).toContain(code);
  });

  test.each(["five", "twelve thou", "thirty-five foot pounds", "clearance two thou"])("with nothing known: %s", (text) => {
    const { parsed, told } = read(text);
    expect(parsed.readings, told).toEqual([]);
    expect(parsed.questions.length, told).toBeGreaterThan(0);
  });
});

describe("several figures in a sentence", () => {
  test.each([
    [
      "rings on four: thirteen, twelve and a half, eleven",
      [
        ["ring_end_gap", { cylinder: 4, ring: "top" }, "0.013", "in"],
        ["ring_end_gap", { cylinder: 4, ring: "second" }, "0.0125", "in"],
        ["ring_end_gap", { cylinder: 4, ring: "oil" }, "0.011", "in"],
      ],
    ],
    [
      "lash on one, intake eleven exhaust thirteen",
      [
        ["valve_lash", { cylinder: 1, valve: "intake" }, "0.011", "in"],
        ["valve_lash", { cylinder: 1, valve: "exhaust" }, "0.013", "in"],
      ],
    ],
    [
      "eleven thou intake, thirteen thou exhaust, lash on number one",
      [
        ["valve_lash", { cylinder: 1, valve: "intake" }, "0.011", "in"],
        ["valve_lash", { cylinder: 1, valve: "exhaust" }, "0.013", "in"],
      ],
    ],
    [
      "crankpin two, one eight six four eight, four tenths out of round",
      [
        ["crankpin_diameter", { rod: 2 }, "1.8648", "in"],
        ["journal_out_of_round", { rod: 2 }, "0.0004", "in"],
      ],
    ],
    [
      "compression seventy, sixty-nine, seventy-two, seventy-one",
      [
        ["compression_pressure", { cylinder: 1 }, "70", "psi"],
        ["compression_pressure", { cylinder: 2 }, "69", "psi"],
        ["compression_pressure", { cylinder: 3 }, "72", "psi"],
        ["compression_pressure", { cylinder: 4 }, "71", "psi"],
      ],
    ],
    [
      "rod three nut A, thirty-six, nine degrees short",
      [
        ["fastener_torque", { fastener: "rod", rod: 3, nut: "a" }, "36", "ft_lbf"],
        ["castle_nut_angle", { fastener: "rod", rod: 3, nut: "a" }, "9", "deg"],
      ],
    ],
    [
      "protrusion one fourteen, two thirteen, three fifteen, four fourteen",
      [
        ["deck_protrusion", { cylinder: 1 }, "0.014", "in"],
        ["deck_protrusion", { cylinder: 2 }, "0.013", "in"],
        ["deck_protrusion", { cylinder: 3 }, "0.015", "in"],
        ["deck_protrusion", { cylinder: 4 }, "0.014", "in"],
      ],
    ],
  ] as const)("%s", (text, expected) => {
    expectReadings(text, expected);
  });

  test("a force at a length and a bend over a length keep the second figure", () => {
    expect(read("spring exhaust two forty-three pounds at one and three quarters").parsed.readings[0]?.over?.digits).toBe("1.75");
    expect(read("rod one bent two thou over six inches").parsed.readings[0]?.over?.digits).toBe("6");
  });
});

describe("plainly for the book, but not to be read: a question", () => {
  test.each([
    ["cylinder four, nine thou", CONTEXTS.none, "which_quantity"],
    ["all four the same, eleven thou", { quantity: "valve_lash" }, "which_valve"],
    ["three tenths over spec", CONTEXTS.pinFit, "approximate"],
    ["two and half a thou", CONTEXTS.rodClearance, "doubtful_number"],
    ["a thou and half a tenth oval", CONTEXTS.none, "which_bearing"],
    ["number four looks fine", CONTEXTS.none, "which_part"],
  ] as const)("%s", (text, context, code) => {
    const { parsed, told } = read(text, context);
    expect(parsed.readings, told).toEqual([]);
    expect(
      parsed.questions.map((q) => q.code),
      told,
    ).toEqual([code]);
  });
});

describe("a size and half a unit of something else, with no pause between", () => {
  test("a crank journal and its out of round", () => {
    const { parsed, told } = expectReadings("crank journal two, one nine nine seven half a thou out of round", [
      ["main_journal_diameter", { main: 2 }, "1.997", "in"],
      ["journal_out_of_round", { main: 2 }, "0.0005", "in"],
    ]);
    expect(parsed.readings[0]?.do, told).toBe("confirm");
  });
});

describe("the first word of a number may have been left out: it waits", () => {
  test.each([
    "for eleven thou",
    "to a half thou",
    "two a half thou",
    "twenty to thou",
    "one thou for tenths",
    "for two, ten thou",
  ])("%s", (text) => {
    for (const context of [CONTEXTS.rodClearance, CONTEXTS.ringGap]) {
      const { parsed, told } = read(text, context);
      expect(
        parsed.readings.map((reading) => reading.do),
        told,
      ).not.toContain("accept");
      expect(parsed.readings.length + parsed.questions.length, told).toBeGreaterThan(0);
    }
  });

  test.each([
    ["thou and seven tenths", "0.0017"],
    ["too and seven tenths thou", "0.0027"],
    ["one and three tenths of a thou", "0.0013"],
  ])("%s is whole", (text, digits) => {
    expectReadings(text, [["bearing_clearance", { rod: 4 }, digits, "in"]], CONTEXTS.rodClearance);
  });
});

describe("places told off before a list", () => {
  test.each([
    [
      "compressions one to four: sixty-eight, seventy, sixty-seven, seventy-two",
      [68, 70, 67, 72].map((v, k) => ["compression_pressure", { cylinder: k + 1 }, String(v), "psi"] as const),
    ],
    [
      "bore one axial, top middle bottom, three eight seven six oh, three eight seven five eight, three eight seven five two",
      ["3.8760", "3.8758", "3.8752"].map(
        (v, k) =>
          ["bore_diameter", { cylinder: 1, axis: "axial", depth: (["top", "middle", "bottom"] as const)[k] }, v, "in"] as const,
      ),
    ],
    [
      "rod four nuts A and B, thirty-four, thirty-five",
      (["a", "b"] as const).map(
        (nut, k) => ["fastener_torque", { fastener: "rod", rod: 4, nut }, String(34 + k), "ft_lbf"] as const,
      ),
    ],
  ])("%s", (text, expected) => {
    const { parsed, told } = expectReadings(text, expected as Parameters<typeof expectReadings>[1]);
    for (const reading of parsed.readings) expect(reading.do, told).toBe("confirm");
  });

  test("fewer values than places told off are no list of all of them", () => {
    const { parsed, told } = read("compressions one to four: sixty-eight, seventy");
    expect(
      parsed.readings.filter((reading) => reading.do === "accept"),
      told,
    ).toEqual([]);
  });

  test("a spring's length may be said before its force", () => {
    const { parsed, told } = expectReadings("spring on intake one, at one and a half, fifty-two pounds", [
      ["valve_spring_force", { cylinder: 1, valve: "intake" }, "52", "lbf"],
    ]);
    expect(parsed.readings[0]?.over?.digits, told).toBe("1.5");
  });
});

describe("metric", () => {
  test.each([
    ["twelve hundredths", CONTEXTS.metricFloat, "crank_end_float", "0.12", "mm"],
    ["a tenth and a half", CONTEXTS.metricFloat, "crank_end_float", "0.15", "mm"],
    ["seven tenths of a thou", CONTEXTS.metricFloat, "crank_end_float", "0.0007", "in"],
    ["forty microns", CONTEXTS.metricFloat, "crank_end_float", "40", "um"],
    ["ninety-eight point four three", CONTEXTS.metricBore, "bore_diameter", "98.43", "mm"],
    ["ninety-nine one eight", CONTEXTS.metricBore, "bore_diameter", "99.18", "mm"],
    ["point three five millimetres", CONTEXTS.metricGap, "ring_end_gap", "0.35", "mm"],
    ["three tenths of a millimetre", CONTEXTS.ringGap, "ring_end_gap", "0.3", "mm"],
  ] as const)("%s", (text, context, quantity, digits, unit) => {
    expectReadings(text, [[quantity, {}, digits, unit]], context);
  });
});

describe("talk gives nothing at all", () => {
  test.each([
    "has anyone seen my ten millimetre socket",
    "the kettle takes about four minutes",
    "we ordered two sets of rings from the catalogue",
    "it must be ninety degrees in this shop today",
    "that customer owes me four hundred dollars",
    "turn that radio down",
    "meet me at half past two",
    "my brother bought a truck with a bad crank",
    "what was the gap on number two",
    "careful with that piston",
    "it's twenty to six",
    "it's eighty degrees out here",
  ])("%s", (text) => {
    for (const context of [CONTEXTS.none, CONTEXTS.ringGap, CONTEXTS.rodClearance]) {
      const { parsed, told } = read(text, context);
      expect([parsed.readings, parsed.questions, parsed.commands, parsed.notes], told).toEqual([[], [], [], []]);
    }
  });
});
