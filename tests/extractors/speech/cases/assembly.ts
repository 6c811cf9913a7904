// Run-out, shells, oil pump, points, jacket test. Ways of speaking are common practice, no source.
import { type Cases, is } from "./types.ts";

export const ASSEMBLY_CASES: Cases = {
  accepted: [
    {
      ...is("flywheel_runout", {}, "0.004", "in"),
      say: ["flywheel runout four thou", "flywheel run out is four thou", "four thou run out on the flywheel"],
    },
    // Run-out alone is the crank's.
    { ...is("crank_runout_tir", {}, "0.002", "in"), say: ["run out two thou", "crank runout two thou"] },
    {
      ...is("cam_runout", {}, "0.0015", "in"),
      say: ["cam runout one and a half thou", "camshaft run out one and a half thou", "cam run out is fifteen tenths"],
    },
    {
      ...is("bearing_crush", { rod: 2 }, "0.002", "in"),
      say: [
        "crush on rod two, two thou",
        "rod two crush two thou",
        "bearing crush rod two two thou",
        "bearing nip rod two two thou",
      ],
    },
    {
      ...is("bearing_spread", { main: 2 }, "0.020", "in"),
      say: ["main two spread twenty thou", "spread on main two twenty thou", "bearing spread main two, twenty thou"],
    },
    {
      ...is("piston_to_valve", { cylinder: 2, valve: "exhaust" }, "0.090", "in"),
      say: [
        "piston to valve exhaust two, ninety thou",
        "exhaust two piston to valve ninety thou",
        "valve to piston exhaust two ninety thou",
      ],
    },
    {
      ...is("coil_clearance", { cylinder: 1, valve: "intake" }, "0.060", "in"),
      say: [
        "coil clearance intake one, sixty thou",
        "intake one coil clearance sixty thou",
        "sixty thou coil clearance intake one",
      ],
    },
    {
      ...is("points_gap", {}, "0.018", "in"),
      say: ["points gap eighteen thou", "points eighteen thou", "points gap is eighteen thou"],
    },
    {
      ...is("dwell_angle", {}, "45", "deg"),
      say: ["dwell forty-five degrees", "dwell forty-five", "dwell is forty-five degrees"],
    },
    {
      ...is("oil_pump_end_clearance", {}, "0.003", "in"),
      say: [
        "oil pump end clearance three thou",
        "three thou oil pump end clearance",
        "end clearance of the oil pump is three thou",
      ],
    },
    {
      ...is("oil_pump_tip_clearance", {}, "0.006", "in"),
      say: ["oil pump tip clearance six thou", "six thou oil pump tip clearance", "tip clearance on the oil pump six thou"],
    },
    {
      ...is("oil_pump_body_clearance", {}, "0.007", "in"),
      say: [
        "oil pump body clearance seven thou",
        "seven thou oil pump body clearance",
        "body clearance on the oil pump seven thou",
      ],
    },
    { ...is("jacket_pressure", {}, "30", "psi"), say: ["jacket test thirty pounds", "jacket test is thirty psi"] },
    { ...is("jacket_pressure", { part: "head" }, "35", "psi"), say: ["head jacket test thirty-five psi"] },
  ],
  refused: [
    { of: "flywheel_runout", code: "approximate", say: ["flywheel runout about four thou"] },
    { of: "cam_runout", code: "approximate", say: ["cam runout about two thou"] },
    { of: "bearing_crush", code: "which_bearing", say: ["shell crush two thou"] },
    { of: "bearing_spread", code: "range", say: ["spread between twenty and thirty thou rod one"] },
    { of: "piston_to_valve", code: "which_valve", say: ["piston to valve two ninety thou"] },
    { of: "coil_clearance", code: "which_valve", say: ["coil clearance two sixty thou"] },
    { of: "points_gap", code: "need_number", say: ["points gap"] },
    { of: "dwell_angle", code: "approximate", say: ["dwell about fifty"] },
    { of: "oil_pump_end_clearance", code: "approximate", say: ["oil pump end clearance about three thou"] },
    { of: "oil_pump_tip_clearance", code: "approximate", say: ["oil pump tip clearance about six thou"] },
    { of: "oil_pump_body_clearance", code: "approximate", say: ["oil pump body clearance about six thou"] },
    { of: "jacket_pressure", code: "approximate", say: ["jacket test about thirty pounds"] },
  ],
};
