// The usual cautions of the bench, by step: short, in the order they matter. They replace no manual and no training.
import type { StepId } from "./steps.ts";

/** Said once under a step's cautions. */
export const DEFER = "Follow the maker's manual and local rules; they come before anything said here.";

interface Caution {
  readonly text: string;
  /** A published source, where there is one; else common practice. */
  readonly source?: string;
  readonly steps: readonly StepId[];
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
    steps: ["cleaning"],
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
  },
  {
    text: "Lead in babbitt: draw off the fume, do not scrape it dry, no food at the bench, wash before eating.",
    steps: ["main_bearings", "rods", "rod_fit"],
  },
  {
    text: "Presses and pullers: cast iron shatters, shield it; let the pressure off before adjusting; stand clear of the axis.",
    steps: ["pins", "rods", "cam"],
  },
  {
    text: "Hot oil or water for the pin fit: dry the part first, gloves on, no open flame under oil.",
    steps: ["piston_assembly"],
  },
  {
    text: "Fingers out from between cheek and case: one person turns and says so; bar out before anyone reaches in.",
    steps: ["rod_fit", "turn_over", "end_float"],
  },
  { text: "Pull the wrench, do not push it. A used cotter is scrap; mind its sharp legs.", steps: ["rod_fit", "final_torque"] },
  {
    text: "First start: fuel lines checked, extinguisher at hand, exhaust led out, ignition cut tested, nobody in the plane of the flywheel.",
    steps: ["first_run"],
  },
  { text: "Hand crank with thumb and fingers on the same side.", steps: ["turn_over", "first_run"] },
  {
    text: "Discharge the magneto before touching its leads; no rings or watches near the battery.",
    steps: ["turn_over", "first_run"],
  },
  {
    text: "Talk to the book only when nothing hangs or turns; ear protection can hide an alarm.",
    steps: ["intake", "finish_bores"],
  },
];

/** The cautions of a step, most specific as listed, ending once by deferring to the maker; empty where the step has none. */
export function cautionsFor(step: StepId): string[] {
  const own = CAUTIONS.filter((caution) => caution.steps.includes(step)).map(({ text, source }) =>
    source === undefined ? text : `${text} (${source})`,
  );
  return own.length === 0 ? [] : [...own, DEFER];
}
