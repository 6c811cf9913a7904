// Crankshaft, bearings, shims. Sizes are those of the invented demo engine; ways of speaking are common practice, no source.
import { type Cases, is } from "./types.ts";

export const CRANK_CASES: Cases = {
  accepted: [
    {
      ...is("main_journal_diameter", { main: 2 }, "1.9978", "in"),
      say: [
        "crank journal two one nine nine seven eight",
        "main journal two, one point nine nine seven eight",
        "main two journal one nine nine seven eight",
        "one nine nine seven eight on main journal two",
        "main journal two nineteen ninety-seven eight",
      ],
    },
    {
      ...is("crankpin_diameter", { rod: 3 }, "1.8647", "in"),
      say: [
        "crankpin three one eight six four seven",
        "rod journal three, one point eight six four seven",
        "throw three one eighty-six forty-seven",
        "crank pin number three 1.8647",
        "pin three, one eight six four seven",
      ],
    },
    {
      ...is("journal_out_of_round", { rod: 1 }, "0.0006", "in"),
      say: ["crankpin one six tenths out of round", "out of round crankpin one, six tenths", "six tenths oval on crankpin one"],
    },
    {
      ...is("journal_taper", { main: 3 }, "0.0005", "in"),
      say: ["main three taper half a thou", "half a thou taper on main three", "five tenths taper, main three"],
    },
    {
      ...is("crank_runout_tir", {}, "0.0025", "in"),
      say: ["crank runout two and a half thou", "run out two and a half thou", "crank run out is twenty-five tenths"],
    },
    {
      ...is("bearing_clearance", { main: 1 }, "0.0018", "in"),
      say: [
        "main one clearance eighteen tenths",
        "clearance main one, one point eight thou",
        "oil clearance on main one is one thou eight tenths",
        "front main clearance one thou and eight tenths",
        "bearing clearance main one point oh oh one eight",
      ],
    },
    {
      ...is("bearing_clearance", { rod: 4 }, "0.0015", "in"),
      say: [
        "rod four clearance a thou and a half",
        "big end clearance four, one and a half thou",
        "one and a half thou clearance on rod four",
        "clearance rod four point oh oh one five",
        "clearance rod four, thou and a half",
        "plastic gauge on rod four says one and a half thou",
        "plastic strip rod four, one and five tenths thou",
      ],
    },
    {
      ...is("shim_thickness", { main: 2, side: "a" }, "0.011", "in"),
      say: [
        "shim main two A side eleven thou",
        "shim pack main two cam side, eleven thou",
        "eleven thou shims main two a side",
        "eleven thou of shim under main two side a",
      ],
    },
    {
      ...is("crank_end_float", {}, "0.0055", "in"),
      say: ["end float five and a half thou", "crank end play five and a half thou", "five and a half thou end float"],
    },
    {
      ...is("cam_end_float", {}, "0.004", "in"),
      say: ["cam end float four thou", "cam end play four thou", "four thou cam end float"],
    },
    {
      ...is("journal_undersize", {}, "-0.020", "in"),
      say: ["pins twenty under", "mains twenty thou undersize", "journals ground twenty under"],
    },
    {
      ...is("journal_undersize", { part: "crankpins" }, "-0.030", "in"),
      say: ["crankpins thirty under", "crank pins ground thirty thou undersize"],
    },
    {
      ...is("journal_undersize", { part: "mains" }, "-0.010", "in"),
      say: ["mains ten under", "mains ground ten thou undersize"],
    },
    {
      ...is("stroke", {}, "4.5", "in"),
      say: ["stroke four and a half inches", "stroke four and a half", "stroke 4.5 inches"],
    },
    {
      ...is("turning_torque", {}, "7", "ft_lbf"),
      say: [
        "crank turns at seven foot pounds",
        "turning torque seven foot pounds",
        "drag seven foot pounds",
        "turns over at seven foot pounds",
      ],
    },
  ],
  refused: [
    { of: "main_journal_diameter", code: "no_such_place", say: ["main journal five one nine nine eight oh"] },
    { of: "crankpin_diameter", code: "which_rod", say: ["crankpin one eight seven three five"] },
    { of: "journal_out_of_round", code: "need_unit", say: ["main one out of round four"] },
    { of: "journal_taper", code: "need_unit", say: ["main two taper three"] },
    { of: "crank_runout_tir", code: "approximate", say: ["crank runout a couple of thou"] },
    { of: "bearing_clearance", code: "which_bearing", say: ["clearance two thou"] },
    { of: "bearing_clearance", code: "no_such_place", say: ["main four clearance two thou"] },
    { of: "shim_thickness", code: "which_side", say: ["shim main one, ten thou"] },
    { of: "crank_end_float", code: "range", say: ["end float four to six thou"] },
    { of: "cam_end_float", code: "approximate", say: ["cam end float roughly four thou"] },
    { of: "journal_undersize", code: "approximate", say: ["pins about ten under"] },
    { of: "stroke", code: "doubtful_number", say: ["stroke nine hundred inches"] },
    { of: "turning_torque", code: "approximate", say: ["crank turns at maybe seven foot pounds"] },
  ],
};
