// Bores and pistons. Sizes are those of the invented demo engine; ways of speaking are common practice, no source.
import { type Cases, is } from "./types.ts";

export const BORE_CASES: Cases = {
  accepted: [
    {
      ...is("bore_diameter", { cylinder: 3, depth: "middle", axis: "axial" }, "3.8806", "in"),
      say: [
        "bore three middle axial three eight eight oh six",
        "cylinder three, middle, axial, three point eight eight zero six",
        "three point eight eight oh six, bore three middle axial",
        "number three bore, middle, along the crank, 3.8806",
        "middle axial on bore three, three double eight oh six",
        "bore three middle axial three inches eight hundred and eighty thou and six tenths",
      ],
    },
    {
      ...is("bore_diameter", { cylinder: 4, depth: "bottom", axis: "thrust" }, "3.9052", "in"),
      say: [
        "bore four bottom thrust three nine oh five two",
        "cylinder four bottom across the crank three point nine oh five two",
        "thrust bottom of bore four is 3.9052",
      ],
    },
    {
      ...is("ring_ridge", { cylinder: 1 }, "0.006", "in"),
      say: ["ridge on one, six thou", "ring ridge number one six thou", "six thou ridge on cylinder one"],
    },
    {
      ...is("score_depth", { cylinder: 2, depth: "middle" }, "0.004", "in"),
      say: ["score depth two middle four thou", "four thou score in two, middle", "cylinder two middle scored four thou deep"],
    },
    {
      ...is("bore_oversize", {}, "0.040", "in"),
      say: ["bored forty over", "bores forty thou oversize", "bored forty thousandths over"],
    },
    {
      ...is("piston_oversize", {}, "0.030", "in"),
      say: ["pistons thirty over", "thirty thou oversize pistons", "pistons are thirty oversize"],
    },
    {
      ...is("piston_skirt_diameter", { cylinder: 2 }, "3.9010", "in"),
      say: [
        "piston two three nine oh one oh",
        "skirt on number two, three point nine oh one zero",
        "piston skirt two 3.9010",
        "three nine oh one oh piston number two",
      ],
    },
    {
      ...is("piston_clearance", { cylinder: 4 }, "0.0035", "in"),
      say: [
        "piston clearance four, three and a half thou",
        "piston four clearance thirty-five tenths",
        "three and a half thou piston to wall on four",
      ],
    },
    {
      ...is("ring_end_gap", { cylinder: 3, ring: "second" }, "0.0145", "in"),
      say: [
        "ring gap three second, fourteen and a half thou",
        "second ring gap on number three is fourteen and a half thou",
        "fourteen and a half thou, ring gap three second",
        "cylinder three second ring, gap fourteen point five thou",
        "end gap three second point oh one four five",
        'ring gap 3 second .0145"',
      ],
    },
    {
      ...is("ring_side_clearance", { cylinder: 1, ring: "oil" }, "0.002", "in"),
      say: [
        "ring side clearance one oil two thou",
        "oil ring side clearance number one, two thou",
        "groove clearance on one oil ring, two thou",
      ],
    },
    {
      ...is("ring_gap_clock", { cylinder: 2, ring: "top" }, "120", "deg"),
      say: [
        "ring position two top one twenty degrees",
        "gap position two top 120 degrees",
        "ring clock two top a hundred and twenty degrees",
      ],
    },
    {
      ...is("surface_ra", { cylinder: 2 }, "25", "uin"),
      say: [
        "surface finish two twenty-five microinches",
        "roughness on two, twenty-five microinch",
        "finish number two 25 microinches",
      ],
    },
  ],
  refused: [
    { of: "bore_diameter", code: "which_cylinder", say: ["bore three point eight eight one oh"] },
    { of: "ring_ridge", code: "which_cylinder", say: ["ridge five thou"] },
    { of: "score_depth", code: "approximate", say: ["score on three about six thou deep"] },
    { of: "bore_oversize", code: "approximate", say: ["bored about thirty over"] },
    { of: "piston_oversize", code: "range", say: ["pistons twenty or thirty over"] },
    { of: "piston_skirt_diameter", code: "no_such_place", say: ["piston six three nine oh one two"] },
    { of: "piston_clearance", code: "range", say: ["piston clearance two three to four thou"] },
    { of: "ring_end_gap", code: "which_ring", say: ["ring gap four, thirteen thou", "gap on number four thirteen thou"] },
    { of: "ring_end_gap", code: "no_such_place", say: ["ring gap seven top twelve thou"] },
    { of: "ring_side_clearance", code: "which_ring", say: ["ring side clearance two, two thou"] },
    { of: "ring_gap_clock", code: "which_ring", say: ["ring position two one twenty degrees"] },
    { of: "surface_ra", code: "which_cylinder", say: ["surface finish thirty microinches"] },
  ],
};
