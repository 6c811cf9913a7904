// Torque, castle nuts, oiling, compression, temperature, cracks. Ways of speaking are common practice, no source.
import { type Cases, is } from "./types.ts";

export const SHOP_CASES: Cases = {
  accepted: [
    {
      ...is("fastener_torque", { fastener: "rod", rod: 3, nut: "b" }, "38", "ft_lbf"),
      say: [
        "rod three nut B thirty-eight foot pounds",
        "torque rod three nut b thirty-eight foot pounds",
        "thirty-eight foot pounds on rod three nut B",
        "rod 3 nut b 38 ft-lb",
      ],
    },
    {
      ...is("fastener_torque", { fastener: "head", nut: 11 }, "52", "ft_lbf"),
      say: [
        "head nut eleven fifty-two foot pounds",
        "head stud eleven, fifty-two foot pounds",
        "fifty-two foot pounds on head nut eleven",
      ],
    },
    {
      ...is("fastener_torque", { fastener: "main", main: 2, nut: "a" }, "100", "N_m"),
      say: [
        "main two nut A one hundred newton metres",
        "a hundred newton metres on main two nut A",
        "main 2 nut a 100 newton meters",
      ],
    },
    {
      ...is("castle_nut_angle", { fastener: "rod", rod: 1, nut: "a" }, "18", "deg"),
      say: [
        "rod one nut A eighteen degrees short of the slot",
        "eighteen degrees short, rod one nut A",
        "rod one nut a eighteen degrees to the slot",
      ],
    },
    {
      ...is("dipper_depth", { rod: 2 }, "0.3125", "in"),
      say: ["dip rod two five sixteenths", "dipper depth rod two five sixteenths of an inch", "rod two dips five sixteenths"],
    },
    {
      ...is("trough_level", { rod: 3 }, "0.375", "in"),
      say: ["trough three three eighths", "trough level rod three three eighths of an inch", "trough three is 3/8"],
    },
    { ...is("trough_level", {}, "0.375", "in"), say: ["trough level three eighths"] },
    {
      ...is("compression_pressure", { cylinder: 1 }, "69", "psi"),
      say: ["compression one sixty-nine psi", "sixty-nine psi on number one", "compression on cylinder one is sixty-nine pounds"],
    },
    {
      ...is("part_temperature", { part: "block" }, "20.5", "degC"),
      say: [
        "block temperature twenty point five degrees celsius",
        "block is at twenty and a half celsius",
        "block temp 20.5 celsius",
        "block's at twenty point five degrees celsius",
      ],
    },
    {
      ...is("crack_indication", { part: "head" }, "0.25", "in"),
      say: ["crack a quarter inch long in the head", "head crack a quarter of an inch", "quarter inch crack in the head"],
    },
  ],
  refused: [
    { of: "fastener_torque", code: "which_fastener", say: ["torque thirty-five foot pounds"] },
    { of: "fastener_torque", code: "impossible_unit", say: ["rod one nut A five kilos", "rod one nut A a hundred inch ounces"] },
    // Past the slot is no figure of how short it is: the next slot is another 55 degrees on.
    { of: "castle_nut_angle", code: "impossible_sign", say: ["rod two nut B five degrees past the slot"] },
    { of: "castle_nut_angle", code: "which_fastener", say: ["twenty degrees short of the slot"] },
    { of: "dipper_depth", code: "which_rod", say: ["dip a quarter inch"] },
    { of: "trough_level", code: "approximate", say: ["trough level about half an inch"] },
    { of: "compression_pressure", code: "which_cylinder", say: ["compression seventy psi"] },
    { of: "compression_pressure", code: "impossible_unit", say: ["compression on three, ninety thou"] },
    { of: "part_temperature", code: "approximate", say: ["block temperature about twenty degrees"] },
    { of: "crack_indication", code: "approximate", say: ["crack about a quarter inch long in the block"] },
  ],
};
