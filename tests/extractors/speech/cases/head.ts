// Deck, head, valves, cam. Ways of speaking are common practice, no source.
import { type Cases, is } from "./types.ts";

export const HEAD_CASES: Cases = {
  accepted: [
    {
      ...is("deck_protrusion", { cylinder: 3 }, "0.016", "in"),
      say: ["protrusion three sixteen thou", "piston three is sixteen thou proud", "deck height three sixteen thou above"],
    },
    {
      ...is("deck_protrusion", { cylinder: 1 }, "-0.004", "in"),
      say: ["deck height one four thou below", "piston one sits four thou below deck", "protrusion one minus four thou"],
    },
    {
      ...is("gasket_thickness", {}, "0.058", "in"),
      say: ["gasket thickness fifty-eight thou", "head gasket is fifty-eight thou", "gasket point oh five eight"],
    },
    {
      ...is("head_recess", {}, "0.012", "in"),
      say: ["head recess twelve thou", "recess twelve thou", "head depth twelve thou"],
    },
    { ...is("head_recess", { cylinder: 4 }, "0.014", "in"), say: ["head recess over cylinder four, fourteen thou"] },
    {
      ...is("piston_to_head", { cylinder: 2 }, "0.054", "in"),
      say: [
        "piston to head two fifty-four thou",
        "solder on two fifty-four thou",
        "squish two fifty-four thou",
        "piston to head clearance two, fifty-four",
      ],
    },
    {
      ...is("chamber_volume", { cylinder: 4 }, "223.5", "cc"),
      say: [
        "chamber four two twenty-three point five",
        "chamber volume four, two hundred and twenty-three point five cc",
        "two two three point five cc chamber four",
        "chamber four two twenty-three and a half cc",
      ],
    },
    {
      ...is("flatness", { part: "deck" }, "0.003", "in"),
      say: ["deck flatness three thou", "deck flat within three thou", "deck warp three thou over sixteen inches"],
    },
    {
      ...is("valve_lash", { cylinder: 3, valve: "exhaust" }, "0.013", "in"),
      say: [
        "exhaust three lash thirteen thou",
        "lash on exhaust three, thirteen thou",
        "thirteen thou valve lash number three exhaust",
      ],
    },
    {
      ...is("valve_stem_diameter", { cylinder: 2, valve: "intake" }, "0.3718", "in"),
      say: [
        "stem intake two three seven one eight",
        "intake two stem, point three seven one eight",
        "valve stem number two intake 0.3718",
      ],
    },
    {
      ...is("guide_id", { cylinder: 4, valve: "exhaust" }, "0.3752", "in"),
      say: [
        "guide bore exhaust four three seven five two",
        "exhaust four guide size point three seven five two",
        "guide diameter exhaust four 0.3752",
      ],
    },
    {
      ...is("valve_guide_clearance", { cylinder: 1, valve: "intake" }, "0.0025", "in"),
      say: [
        "guide clearance intake one two and a half thou",
        "intake one guide twenty-five tenths",
        "stem clearance intake one two and a half thou",
      ],
    },
    {
      ...is("valve_seat_width", { cylinder: 2, valve: "exhaust" }, "0.09375", "in"),
      say: [
        "seat width exhaust two three thirty-seconds",
        "exhaust two seat three thirty-seconds of an inch",
        "seat exhaust two 3/32",
      ],
    },
    {
      ...is("valve_spring_force", { cylinder: 3, valve: "intake" }, "44", "lbf"),
      say: [
        "spring intake three forty-four pounds at one and three quarters",
        "intake three spring forty-four pounds at one and three quarter inches",
        "spring pressure intake three forty-four pounds",
      ],
    },
    {
      ...is("valve_spring_length", { cylinder: 4, valve: "exhaust" }, "2.0625", "in"),
      say: [
        "spring length exhaust four two and a sixteenth",
        "free length exhaust four two and one sixteenth inches",
        "exhaust four spring free length 2.0625 inches",
      ],
    },
    {
      ...is("lobe_lift", { cylinder: 1, valve: "intake" }, "0.281", "in"),
      say: [
        "lobe lift intake one two eight one",
        "intake one lift point two eight one",
        "cam lift intake one two hundred and eighty-one thou",
      ],
    },
    {
      ...is("gear_backlash", {}, "0.0035", "in"),
      say: ["backlash three and a half thou", "gear backlash thirty-five tenths", "three and a half thou gear lash"],
    },
  ],
  refused: [
    { of: "deck_protrusion", code: "which_cylinder", say: ["protrusion fourteen thou"] },
    { of: "gasket_thickness", code: "range", say: ["gasket between fifty and sixty thou"] },
    { of: "head_recess", code: "approximate", say: ["head recess around ten thou"] },
    { of: "piston_to_head", code: "which_cylinder", say: ["piston to head fifty thou"] },
    { of: "chamber_volume", code: "which_cylinder", say: ["chamber volume two hundred and twenty cc"] },
    { of: "flatness", code: "which_part", say: ["flatness two thou"] },
    { of: "valve_lash", code: "which_valve", say: ["lash three ten thou"] },
    { of: "valve_stem_diameter", code: "which_valve", say: ["stem two three seven one eight"] },
    { of: "guide_id", code: "which_valve", say: ["guide bore three point three seven five two"] },
    { of: "valve_guide_clearance", code: "need_unit", say: ["guide clearance exhaust one three"] },
    { of: "valve_seat_width", code: "which_valve", say: ["seat width one a sixteenth"] },
    { of: "valve_spring_force", code: "which_valve", say: ["spring two forty-five pounds"] },
    { of: "valve_spring_length", code: "which_valve", say: ["free length three two and a sixteenth"] },
    { of: "lobe_lift", code: "which_valve", say: ["lobe lift two point two eight oh"] },
    { of: "gear_backlash", code: "approximate", say: ["backlash a few thou"] },
  ],
};
