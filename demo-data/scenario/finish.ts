// Valves, final torque with its cotters, dippers, and turning it over.
import type { Line } from "../scenario.ts";

export const FINISH: readonly Line[] = [
  { step: "valves", wait: 200 },
  { clip: "c093", say: "exhaust two lash, nine thou" },
  { clip: "c094", say: "scratch that, make it twelve thou" },
  { clip: "c095", say: "exhaust three guide, fifty-two tenths" },
  { clip: "c096", say: "intake four seat, ninety thou" },
  { clip: "c097", say: "exhaust one spring, thirty-eight pounds at one and three quarters" },
  { close: "valves" },
  { step: "final_torque", wait: 60 },
  { clip: "c098", say: "rod one nut A, thirty-eight foot pounds" },
  { clip: "c099", say: "rod one nut B, thirty-six foot pounds" },
  { clip: "c100", say: "rod two nut A, thirty-seven foot pounds" },
  { clip: "c101", say: "rod two nut B, thirty-five foot pounds" },
  { clip: "c102", say: "rod two nut B, twenty-two degrees short of the slot" },
  { clip: "c103", say: "rod three nut A, forty-five foot pounds" },
  { type: "rod four nut A, backed it off to line up" },
  { type: "cotter in, rod one nut A" },
  { photos: "final_torque" },
  { close: "final_torque" },
  { step: "splash", wait: 20 },
  { photos: "splash" },
  { clip: "c104", say: "quarter inch dip, rod one" },
  { step: "turn_over", wait: 30 },
  { clip: "c105", say: "turns at twenty-four foot pounds" },
];
