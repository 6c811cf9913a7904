// The usual cautions of the bench, by step: short, in the order they matter. They replace no manual and no training.
import { type Engine, suits, type Trait } from "../spec/engine.ts";
import { STEP_IDS, type StepId } from "./steps.ts";

/** Said once under a step's cautions. */
export const DEFER = "Follow the maker's manual and local rules; they come before anything said here.";

interface Caution {
  readonly text: string;
  /** A published source, where there is one; else common practice. */
  readonly source?: string;
  readonly steps: readonly StepId[];
  /** What an engine must have for it to be said. */
  readonly needs?: readonly Trait[];
}

/** Common practice of the trade where no source is named. */
export const CAUTIONS: readonly Caution[] = [
  {
    text: "Lift block, crank and flywheel with a rated hoist in the lifting eyes; never reach or stand under a hung load. Two people above 25 kg.",
    steps: ["intake", "teardown", "main_bearings", "hand_over"],
  },
  {
    text: "Old gaskets, packing and clutch facings may hold asbestos: wet them, scrape by hand, bag the waste; no wire wheel, no air blast.",
    source: "29 CFR 1910.1001",
    steps: ["teardown", "cleaning", "deck"],
  },
  {
    text: "Springs, clips and keepers fly: eyes covered, a cloth over the part, point it away.",
    steps: ["teardown", "pins", "piston_assembly", "valves"],
  },
  {
    text: "Solvent is toxic and burns: gloves, goggles, fresh air, no flame. Blow parts dry at 30 psi or less, with a chip guard.",
    source: "TM 10-3930-653-14&P",
    steps: ["cleaning", "final_wash"],
  },
  {
    text: "Hot caustic: face shield; add caustic to cold water, never the other way; never put aluminium or babbitt in it.",
    steps: ["cleaning"],
  },
  {
    text: "Crack testing: no heart pacemaker near the coil, UV glasses, open air for dye sprays; demagnetise the part after.",
    steps: ["crack_check"],
  },
  {
    text: "Boring and honing: no gloves near the tool, guard on, stop the machine before gauging.",
    steps: ["finish_bores"],
  },
  {
    text: "Grinding: ring-test the wheel, side shield on; draw the dust off, it harms the lungs.",
    steps: ["finish_bores", "valves", "crank_decision"],
  },
  {
    text: "Molten babbitt: shell, ladle and mandrel bone dry and warm; a drop of water throws metal. Face shield, leather, long sleeves.",
    steps: ["main_bearings", "rods"],
    needs: ["poured"],
  },
  {
    text: "Lead in babbitt: draw off the fume, do not scrape it dry, no food at the bench, wash before eating.",
    steps: ["main_bearings", "rods", "rod_fit"],
    needs: ["poured"],
  },
  {
    text: "Presses and pullers: cast iron shatters, shield it; let the pressure off before adjusting; stand clear of the axis.",
    steps: ["pins", "rods", "cam", "cam_bearings"],
  },
  {
    text: "Hot oil or water for the pin fit: dry the part first, gloves on, no open flame under oil.",
    steps: ["piston_assembly"],
  },
  {
    text: "Fingers out from between cheek and case: one person turns and says so; bar out before anyone reaches in.",
    steps: ["rod_fit", "turn_over", "end_float", "valve_timing"],
  },
  { text: "Pull the wrench, do not push it. A used cotter is scrap; mind its sharp legs.", steps: ["rod_fit", "final_torque"] },
  {
    text: "First start: fuel lines checked, extinguisher at hand, exhaust led out, ignition cut tested, nobody in the plane of the flywheel.",
    steps: ["first_run"],
  },
  {
    text: "Before hand cranking: spark fully retarded, out of gear. Thumb and fingers on the same side, pull up, never push down.",
    steps: ["ignition_timing", "turn_over", "first_run", "run_in"],
  },
  {
    text: "A magneto stores no charge to let off: ground its primary, and take it for live whenever the shaft can turn.",
    steps: ["intake", "teardown", "cam", "valve_timing", "ignition_timing", "turn_over", "first_run"],
    needs: ["magneto"],
  },
  {
    text: "Compression test: ignition grounded, fuel shut off, throttle open, nobody in the plane of crank handle and flywheel.",
    steps: ["intake", "first_run"],
  },
  {
    text: "Tightening again while hot: skin burns on head and manifold, and coolant scalds. Let it cool before a cap or plug is opened.",
    steps: ["first_run", "run_in"],
  },
  {
    text: "Injection pierces the skin and such a wound is an emergency: no hand before a nozzle, pressure let off before a pipe is loosened.",
    steps: ["intake", "injection_timing", "first_run"],
    needs: ["injection"],
  },
  {
    text: "Driving plugs and rings: eyes covered, a drift that fits, hands clear of the jacket's sharp edges; sealers are breathed in fresh air.",
    steps: ["core_plugs"],
  },
  {
    text: "Spun parts fly: weights are fixed and the guard is shut before anything turns; drilled swarf is brushed off, not blown.",
    steps: ["balance"],
  },
  {
    text: "A battery gives off hydrogen: no spark or flame near it, last clamp to the frame away from it. No rings or watches.",
    source: "29 CFR 1926.441",
    steps: ["intake", "ignition_timing", "turn_over", "first_run", "run_in"],
    needs: ["battery"],
  },
  {
    text: "Jacket test with water, all air let out first: air under pressure bursts a casting. Raise it slowly, stand clear of plugs and plates.",
    steps: ["crack_check", "core_plugs", "deck"],
    needs: ["water"],
  },
  {
    text: "A block put to soak or stood on end is chocked: it rolls. Carry gauges and parts one at a time, floor dry of oil.",
    steps: ["soak", "bores", "crankshaft"],
  },
  {
    text: "Ridge and worn bore edges are knife sharp, and so are broken rings: gloves to handle, no bare fingers down the bore.",
    steps: ["teardown", "bores", "bore_decision", "rings"],
  },
  {
    text: "A crank is heavy and rolls on its blocks: two people or a sling, V-blocks fixed, fingers clear of the cheeks when it is turned.",
    steps: ["crankshaft", "crank_decision"],
  },
  {
    text: "Sharp crowns, skirts and grooves: cloth or gloves. A hot piston shows no heat; do not drop one on its skirt, it cracks.",
    steps: ["pistons", "piston_assembly"],
  },
  {
    text: "A ring breaks when it is spread: eye protection, use the expander, file towards the inside, never with the ring in bare fingers.",
    steps: ["rings", "piston_assembly"],
  },
  {
    text: "Under the sump: engine on its stand, locked from turning over; crank barred, nobody turns it while a hand is inside.",
    steps: ["splash", "oil_pump", "end_float"],
  },
  {
    text: "Talk to the book only when nothing hangs or turns; ear protection can hide an alarm.",
    steps: ["intake", "finish_bores", "balance", ...STEP_IDS.filter((id) => id.startsWith("shop_"))],
  },
];

/** The cautions of a step on an engine (on any, where none is given), most specific as listed, ending once by deferring to the maker; empty where the step has none. */
export function cautionsFor(step: StepId, engine?: Engine): string[] {
  const said = CAUTIONS.filter(({ steps, needs }) => steps.includes(step) && (engine === undefined || suits(engine, needs)));
  const own = said.map(({ text, source }) => (source === undefined ? text : `${text} (${source})`));
  return own.length === 0 ? [] : [...own, DEFER];
}
