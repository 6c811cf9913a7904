// Rods, pins and their fits, masses. Ways of speaking are common practice, no source.
import { type Cases, is } from "./types.ts";

export const ROD_CASES: Cases = {
  accepted: [
    {
      ...is("rod_side_clearance", { rod: 2 }, "0.008", "in"),
      say: ["rod two side eight thou", "side clearance rod two, eight thou", "rod two side play is eight thou"],
    },
    {
      ...is("rod_bend", { rod: 1 }, "0.003", "in"),
      say: [
        "rod one bent three thou in six inches",
        "bend on rod one three thou over six inches",
        "rod one bend three thou in six",
      ],
    },
    {
      ...is("rod_twist", { rod: 4 }, "0.002", "in"),
      say: [
        "rod four twist two thou in six inches",
        "twist rod four two thou over six inches",
        "rod four twisted two thou in six",
      ],
    },
    {
      ...is("rod_length_dev", { rod: 3 }, "-0.001", "in"),
      say: ["rod three length one thou short", "rod length three minus one thou", "length of rod three a thou short"],
    },
    {
      ...is("rod_length_dev", { rod: 3 }, "-0.0015", "in"),
      say: ["a thou and a half short", "thou and a half short"],
      context: { quantity: "rod_length_dev", place: { rod: 3 } },
    },
    {
      ...is("mass", { rod: 2 }, "615", "g"),
      say: [
        "rod two weighs six hundred and fifteen grams",
        "rod two weight 615 grams",
        "six hundred fifteen grams weight rod two",
      ],
    },
    {
      ...is("mass", { cylinder: 3 }, "604", "g"),
      say: [
        "piston three weighs six hundred and four grams",
        "weight of piston three, 604 grams",
        "piston three mass six hundred four grams",
      ],
    },
    {
      ...is("pin_diameter", { cylinder: 1 }, "0.8749", "in"),
      say: [
        "wrist pin one eight seven four nine",
        "piston pin number one, point eight seven four nine",
        "gudgeon pin one 0.8749",
      ],
    },
    {
      ...is("bush_id", { cylinder: 2 }, "0.8754", "in"),
      say: ["bush two eight seven five four", "rod bush number two point eight seven five four", "bushing two 0.8754"],
    },
    {
      ...is("boss_id", { cylinder: 4 }, "0.8750", "in"),
      say: ["boss four eight seven five oh", "piston boss four, point eight seven five oh", "boss bore four 0.8750"],
    },
    {
      ...is("pin_fit_bush", { cylinder: 3 }, "0.0005", "in"),
      say: [
        "bush fit three five tenths loose",
        "pin fit in the bush on three, half a thou loose",
        "bush fit number three five tenths clearance",
      ],
    },
    {
      ...is("pin_fit_bush", { cylinder: 1 }, "0.0004", "in"),
      say: ["four tenths clearance", "4 10ths loose", "four tense loose"],
      context: { quantity: "pin_fit_bush", place: { cylinder: 1 } },
    },
    {
      ...is("pin_fit_boss", { cylinder: 2 }, "-0.0001", "in"),
      say: ["boss fit two one tenth tight", "pin fit in the piston two, a tenth tight", "pin fit two one tenth interference"],
    },
    {
      ...is("pin_fit_boss", { cylinder: 1 }, "0", "in"),
      say: ["boss fit one line to line", "boss fit size for size on one"],
    },
  ],
  refused: [
    { of: "rod_side_clearance", code: "which_rod", say: ["side clearance nine thou"] },
    { of: "rod_bend", code: "which_rod", say: ["bend three thou in six inches"] },
    { of: "rod_twist", code: "approximate", say: ["rod two twist a few thou in six inches"] },
    { of: "rod_length_dev", code: "approximate", say: ["rod three length nearly a thou short"] },
    { of: "mass", code: "which_part", say: ["number two weighs six hundred grams"] },
    { of: "pin_diameter", code: "which_cylinder", say: ["wrist pin diameter point eight seven four nine"] },
    { of: "bush_id", code: "which_cylinder", say: ["bush point eight seven five four"] },
    { of: "boss_id", code: "no_such_place", say: ["boss five point eight seven five oh"] },
    { of: "pin_fit_bush", code: "need_unit", say: ["bush fit four, number one"] },
    { of: "pin_fit_boss", code: "need_unit", say: ["boss fit two tight, number four"] },
  ],
};
