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
    {
      ...is("main_housing_bore", { main: 2 }, "2.2502", "in"),
      say: [
        "main two housing two two five oh two",
        "housing bore main two, two two five oh two",
        "main housing bore two, two point two five oh two",
      ],
    },
    {
      ...is("rod_housing_bore", { rod: 3, end: "front" }, "2.1250", "in"),
      say: [
        "rod three housing front two one two five oh",
        "housing bore rod three front, two one two five oh",
        "rod three housing bore front two point one two five oh",
      ],
    },
    {
      ...is("roller_clearance", { rod: 2 }, "0.0006", "in"),
      say: ["rod two roller clearance six tenths", "roller fit rod two six tenths", "six tenths roller clearance on rod two"],
    },
    {
      ...is("gasket_crush", {}, "0.009", "in"),
      say: ["gasket crush nine thou", "nine thou gasket crush", "gasket crush is nine thou"],
    },
    {
      ...is("valve_spring_rate", { cylinder: 1, valve: "intake" }, "95", "lbf_per_in"),
      say: [
        "spring rate intake one ninety-five pounds an inch",
        "intake one spring rate ninety-five pounds per inch",
        "intake one spring rate ninety-five",
      ],
    },
    {
      ...is("leak_down", { cylinder: 2 }, "12", "percent"),
      say: ["leak down two, twelve percent", "cylinder two leakdown twelve percent", "leak down on number two twelve percent"],
    },
    {
      ...is("oil_pressure", {}, "35", "psi"),
      say: [
        "oil pressure thirty-five pounds at twelve hundred",
        "oil pressure thirty-five psi at twelve hundred rpm",
        "oil pressure thirty-five",
      ],
    },
    {
      ...is("jacket_pressure", { part: "block" }, "40", "psi"),
      say: ["block jacket test forty pounds for ten minutes"],
    },
    {
      ...is("jacket_drop", {}, "2", "psi"),
      say: ["jacket loss two pounds", "two pounds jacket loss", "jacket loss is two psi"],
    },
    {
      ...is("run_in_time", { stage: 1 }, "30", "min"),
      say: [
        "run in time stage one thirty minutes",
        "stage one run in time thirty minutes",
        "running in time stage one, thirty minutes",
      ],
    },
    {
      ...is("run_in_speed", { stage: 2 }, "1200", "rpm"),
      say: [
        "run in speed stage two twelve hundred",
        "stage two run in speed twelve hundred rpm",
        "run in speed stage two twelve hundred rpm",
      ],
    },
    {
      ...is("run_in_load", { stage: 2 }, "50", "percent"),
      say: [
        "run in load stage two fifty percent",
        "stage two run in load fifty percent",
        "run in load stage two is fifty percent",
      ],
    },
    {
      ...is("run_in_temperature", { stage: 1 }, "80", "degC"),
      say: [
        "run in temperature stage one eighty celsius",
        "stage one run in temperature eighty degrees celsius",
        "run in temperature stage one is eighty centigrade",
      ],
    },
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
    { of: "main_housing_bore", code: "approximate", say: ["main two housing about two two five oh two"] },
    { of: "rod_housing_bore", code: "approximate", say: ["rod three housing about two one two five oh"] },
    { of: "roller_clearance", code: "which_bearing", say: ["roller clearance six tenths"] },
    { of: "gasket_crush", code: "approximate", say: ["gasket crush about nine thou"] },
    { of: "valve_spring_rate", code: "which_valve", say: ["spring rate two ninety-five pounds an inch"] },
    { of: "leak_down", code: "which_cylinder", say: ["leak down twelve percent"] },
    { of: "oil_pressure", code: "approximate", say: ["oil pressure about thirty"] },
    { of: "jacket_drop", code: "approximate", say: ["jacket loss about two pounds"] },
    { of: "run_in_time", code: "approximate", say: ["run in time about thirty minutes"] },
    { of: "run_in_speed", code: "approximate", say: ["run in speed about twelve hundred"] },
    { of: "run_in_load", code: "approximate", say: ["run in load about fifty percent"] },
    { of: "run_in_temperature", code: "approximate", say: ["run in temperature about eighty celsius"] },
    { of: "jacket_pressure", code: "approximate", say: ["jacket test about thirty pounds"] },
  ],
};
