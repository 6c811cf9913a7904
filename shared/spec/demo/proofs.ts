// The photos the demo engine's steps need. Invented sheet; which pictures to take is common practice, no source.
import type { Spec } from "../spec.ts";

type Proof = Spec["proofs"][number];

const proof = (id: string, step: Proof["step"], each: Proof["each"], title: string): Proof => ({
  id,
  step,
  each,
  title,
  source: { kind: "common_practice", cite: "common practice, no source" },
});

export const DEMO_PROOFS: Spec["proofs"] = [
  proof("cap_marks", "teardown", "rod", "Rod and cap numbers, same side, before the cap comes off"),
  proof("timing_marks", "teardown", "engine", "Timing marks in line"),
  proof("blue_print", "main_bearings", "main", "Blue print of the bearing"),
  proof("bore_hatch", "finish_bores", "cylinder", "Bore wall with its cross-hatch"),
  proof("front_mark", "piston_assembly", "cylinder", "Front mark on the piston crown, rod numbers beside it"),
  proof("gauge_strip", "rod_fit", "rod", "Pressed gauge strip against its scale"),
  proof("cotter", "final_torque", "rod", "Both cotter pins in, legs bent, slots visible"),
  proof("dipper", "splash", "rod", "Dipper mouth with the way of turning"),
];
