// The job's steps in order, as data: what each is called, what it measures and what must come before it.

export interface Step {
  readonly id: StepId;
  readonly title: string;
  /** Ways to open the step by voice, beside its title. */
  readonly spoken: readonly string[];
  /** Steps that must be done first (hard order graph of the job; common practice, no source). */
  readonly after: readonly StepId[];
}

export const STEP_IDS = [
  "intake",
  "teardown",
  "cleaning",
  "crack_check",
  "soak",
  "bores",
  "bore_decision",
  "crankshaft",
  "crank_decision",
  "main_bearings",
  "end_float",
  "cam",
  "pins",
  "rods",
  "finish_bores",
  "pistons",
  "rings",
  "piston_assembly",
  "rod_fit",
  "deck",
  "valves",
  "final_torque",
  "splash",
  "turn_over",
  "first_run",
  "hand_over",
] as const;
export type StepId = (typeof STEP_IDS)[number];

const step = (id: StepId, title: string, spoken: readonly string[], after: readonly StepId[]): Step => ({
  id,
  title,
  spoken,
  after,
});

export const STEPS: readonly Step[] = [
  step("intake", "Intake, as found", ["intake", "as found"], []),
  step("teardown", "Teardown and match-marks", ["teardown", "match marks", "match marking"], ["intake"]),
  step("cleaning", "Cleaning", ["cleaning"], ["teardown"]),
  step("crack_check", "Crack check", ["crack check"], ["cleaning"]),
  step("soak", "Soak and gauge zero", ["soak", "gauge zero", "zero the gauges"], ["cleaning"]),
  step("bores", "Bores, as found", ["bores", "bore check"], ["crack_check", "soak"]),
  step("bore_decision", "Hone, bore or sleeve", ["bore decision"], ["bores"]),
  step(
    "crankshaft",
    "Crankshaft",
    ["crankshaft", "crank check", "journals", "crank journals", "crankpins"],
    ["crack_check", "soak"],
  ),
  step("crank_decision", "Regrind decision", ["regrind decision", "crank decision"], ["crankshaft"]),
  step(
    "main_bearings",
    "Main bearings",
    ["main bearings", "mains", "main clearance", "main bearing clearance"],
    ["crank_decision"],
  ),
  step("end_float", "Crank end float", ["end float", "crank end float", "end play"], ["main_bearings"]),
  step("cam", "Cam, followers, gears", ["cam", "cam and followers", "camshaft", "lobe lift", "cam lift"], ["crack_check"]),
  step("pins", "Pins and bushes", ["pins", "pins and bushes", "pin fits", "pin fit", "wrist pins", "piston pins"], ["soak"]),
  step("rods", "Rods", ["rods", "rod check", "rod alignment"], ["crank_decision", "pins"]),
  step("finish_bores", "Bore and hone to finish", ["finish bores", "honing"], ["bore_decision", "soak"]),
  step("pistons", "Pistons", ["pistons", "piston clearance", "piston skirt"], ["finish_bores", "soak"]),
  step("rings", "Rings", ["rings", "ring gap", "ring end gap", "end gap"], ["pistons"]),
  step("piston_assembly", "Pistons on rods", ["piston assembly"], ["rings", "rods"]),
  step(
    "rod_fit",
    "Rods to crank",
    ["rod fit", "rods to crank", "rod clearance", "rod bearing clearance"],
    ["end_float", "rods", "piston_assembly"],
  ),
  step("deck", "Deck, head and ratio", ["deck", "deck and head", "deck height", "protrusion"], ["rod_fit"]),
  step(
    "valves",
    "Valves",
    ["valves", "valve work", "valve lash", "lash", "valve clearance", "tappet", "valve spring", "valve guide"],
    ["crack_check"],
  ),
  step(
    "final_torque",
    "Final torque and cotters",
    ["final torque", "torque and cotters", "torque", "cotters"],
    ["rod_fit", "deck", "valves"],
  ),
  step("splash", "Dippers and troughs", ["splash", "dippers", "dippers and troughs"], ["final_torque"]),
  step("turn_over", "Turn over", ["turn over"], ["splash"]),
  step("first_run", "First run", ["first run", "compression"], ["turn_over"]),
  step("hand_over", "Hand over", ["hand over", "handover"], ["turn_over"]),
];
