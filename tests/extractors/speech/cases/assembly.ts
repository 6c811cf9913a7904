// Run-out of flywheel and cam. Ways of speaking are common practice, no source.
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
  ],
  refused: [
    { of: "flywheel_runout", code: "approximate", say: ["flywheel runout about four thou"] },
    { of: "cam_runout", code: "approximate", say: ["cam runout about two thou"] },
  ],
};
