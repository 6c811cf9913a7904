// The job's steps in order, as data: what each is called, what must come before it, what it covers, and which engines have it.
import type { Trait } from "../spec/engine.ts";

/** A step that must come first; behind it what an engine must have for that to hold. */
export type After = StepId | readonly [StepId, Trait];

export interface Step {
  readonly id: StepId;
  readonly title: string;
  /** Ways to open the step by voice, beside its title. */
  readonly spoken: readonly string[];
  /** Steps that must be done first (hard order graph of the job; common practice, no source). */
  readonly after: readonly After[];
  /** Steps whose readings and proofs cannot be taken any more without taking this one down again (common practice, no source). */
  readonly hides: readonly StepId[];
  /** What an engine must have for the step to be one of its own. */
  readonly needs: readonly Trait[];
}

/** Every step a sheet's plan may have. Ids are never taken out: logs name them. Those of the shop have what the sheet calls them. */
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
  "cam_bearings",
  "main_bearings",
  "end_float",
  "cam",
  "pins",
  "rods",
  "finish_bores",
  "pistons",
  "rings",
  "balance",
  "final_wash",
  "core_plugs",
  "oil_pump",
  "piston_assembly",
  "rod_fit",
  "deck",
  "valve_timing",
  "valves",
  "final_torque",
  "splash",
  "ignition_timing",
  "injection_timing",
  "turn_over",
  "first_run",
  "run_in",
  "hand_over",
  "shop_1",
  "shop_2",
  "shop_3",
  "shop_4",
  "shop_5",
  "shop_6",
  "shop_7",
  "shop_8",
  "shop_9",
] as const;
export type StepId = (typeof STEP_IDS)[number];

const step = (
  id: StepId,
  title: string,
  spoken: readonly string[],
  after: readonly After[],
  hides: readonly StepId[] = [],
  needs: readonly Trait[] = [],
): Step => ({ id, title, spoken, after, hides, needs });

/** The plan of every kind of engine at once; `planOf` takes of it what an engine has. */
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
  step("cam_bearings", "Cam bearings", ["cam bearings", "cam bushes", "camshaft bearings"], ["crack_check"], [], ["valves"]),
  step(
    "main_bearings",
    "Main bearings",
    ["main bearings", "mains", "main clearance", "main bearing clearance"],
    ["crank_decision"],
  ),
  step("end_float", "Crank end float", ["end float", "crank end float", "end play"], ["main_bearings"]),
  step(
    "cam",
    "Cam, followers, gears",
    ["cam", "cam and followers", "camshaft", "lobe lift", "cam lift"],
    ["crack_check", "cam_bearings"],
    [],
    ["valves"],
  ),
  step("pins", "Pins and bushes", ["pins", "pins and bushes", "pin fits", "pin fit", "wrist pins", "piston pins"], ["soak"]),
  step("rods", "Rods", ["rods", "rod check", "rod alignment"], ["crank_decision", "pins"]),
  step("finish_bores", "Bore and hone to finish", ["finish bores", "honing"], ["bore_decision", "soak"], ["bores"]),
  step("pistons", "Pistons", ["pistons", "piston clearance", "piston skirt"], ["finish_bores", "soak"]),
  step("rings", "Rings", ["rings", "ring gap", "ring end gap", "end gap"], ["pistons"]),
  step("balance", "Weights and balance", ["balance", "balancing", "weights"], ["rods", "pistons"]),
  step(
    "final_wash",
    "Final wash and oil galleries",
    ["final wash", "galleries", "oil galleries"],
    ["finish_bores", "crank_decision", "cam_bearings"],
  ),
  step("core_plugs", "Core plugs and jacket", ["core plugs"], ["final_wash"], ["final_wash"], ["water"]),
  step("oil_pump", "Oil pump and pressure", ["oil pump", "oil pressure"], ["final_wash"], [], ["oil_pump"]),
  step(
    "piston_assembly",
    "Pistons on rods",
    ["piston assembly"],
    ["rings", "rods", "balance", "final_wash"],
    ["pins", "pistons", "rings", "balance"],
  ),
  step(
    "rod_fit",
    "Rods to crank",
    ["rod fit", "rods to crank", "rod clearance", "rod bearing clearance"],
    ["end_float", "rods", "piston_assembly"],
    ["crankshaft", "pins", "rods", "pistons", "rings", "piston_assembly", "balance", "final_wash"],
  ),
  step(
    "deck",
    "Deck, head and ratio",
    ["deck", "deck and head", "deck height", "protrusion"],
    ["rod_fit", ["cam", "cam_in_block"]],
    ["bores", "finish_bores", "pistons"],
  ),
  step(
    "valve_timing",
    "Valve timing",
    ["valve timing", "cam timing"],
    ["cam", "rod_fit", ["deck", "cam_in_head"]],
    ["cam", "cam_bearings"],
    ["valves"],
  ),
  step(
    "valves",
    "Valves",
    ["valves", "valve work", "valve lash", "lash", "valve clearance", "tappet", "valve spring", "valve guide"],
    ["crack_check", "cam"],
    [],
    ["valves"],
  ),
  step(
    "final_torque",
    "Final torque and cotters",
    ["final torque", "torque and cotters", "torque", "cotters"],
    ["rod_fit", "deck", "valves"],
    ["main_bearings", "rod_fit", "end_float"],
  ),
  step(
    "splash",
    "Dippers and troughs",
    ["splash", "dippers", "dippers and troughs"],
    ["final_torque"],
    ["main_bearings", "end_float", "rod_fit", "final_torque"],
    ["dippers"],
  ),
  step(
    "ignition_timing",
    "Ignition timing",
    ["ignition timing", "spark timing"],
    ["valve_timing", "final_torque"],
    [],
    ["spark"],
  ),
  step("injection_timing", "Injection timing", ["injection timing"], ["valve_timing", "final_torque"], [], ["injection"]),
  step(
    "turn_over",
    "Turn over",
    ["turn over"],
    ["splash", "final_torque", "valve_timing", "oil_pump"],
    ["splash", "final_torque"],
  ),
  step(
    "first_run",
    "First run",
    ["first run", "compression"],
    ["turn_over", "ignition_timing", "injection_timing", "core_plugs"],
  ),
  step("run_in", "Run-in and tightening again", ["run in", "running in", "retorque"], ["first_run"]),
  step("hand_over", "Hand over", ["hand over", "handover"], ["turn_over", "first_run", "run_in"]),
];
