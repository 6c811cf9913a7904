// Every computation by id, as data: what the command line lists and the pages offer.
import { ASSEMBLY_COMPUTATIONS } from "./assembly.ts";
import { BEARING_COMPUTATIONS } from "./bearing.ts";
import { BORE_COMPUTATIONS } from "./bore.ts";
import { CASTLE_NUT_COMPUTATIONS } from "./castle-nut.ts";
import type { Computation } from "./computation.ts";
import { CONFORMANCE_COMPUTATIONS } from "./conformance.ts";
import { DECK_COMPUTATIONS } from "./deck.ts";
import { FIT_COMPUTATIONS } from "./fit.ts";
import { GRADE_COMPUTATIONS } from "./grade.ts";
import { HONE_COMPUTATIONS } from "./hone.ts";
import { INTERFERENCE_COMPUTATIONS } from "./interference.ts";
import { JOURNAL_COMPUTATIONS } from "./journal.ts";
import { PRESSURE_COMPUTATIONS } from "./pressure.ts";
import { RATIO_COMPUTATIONS } from "./ratio.ts";
import { RING_COMPUTATIONS } from "./ring.ts";
import { ROD_COMPUTATIONS } from "./rod.ts";
import { RUNNING_COMPUTATIONS } from "./running.ts";
import { RUNOUT_COMPUTATIONS } from "./runout.ts";
import { SHELL_COMPUTATIONS } from "./shell.ts";
import { SIZE_STEP_COMPUTATIONS } from "./size-steps.ts";
import { SPRING_COMPUTATIONS } from "./spring.ts";
import { STATISTICS_COMPUTATIONS } from "./statistics.ts";
import { THERMAL_COMPUTATIONS } from "./thermal.ts";
import { TIMING_COMPUTATIONS } from "./timing.ts";
import { TORQUE_COMPUTATIONS } from "./torque.ts";
import { UNCERTAINTY_COMPUTATIONS } from "./uncertainty.ts";
import { UNIT_COMPUTATIONS } from "./unit-pair.ts";
import { VALVE_COMPUTATIONS } from "./valve.ts";

export const COMPUTATIONS: readonly Computation[] = [
  ...BORE_COMPUTATIONS,
  ...SIZE_STEP_COMPUTATIONS,
  ...RING_COMPUTATIONS,
  ...FIT_COMPUTATIONS,
  ...INTERFERENCE_COMPUTATIONS,
  ...THERMAL_COMPUTATIONS,
  ...ROD_COMPUTATIONS,
  ...JOURNAL_COMPUTATIONS,
  ...BEARING_COMPUTATIONS,
  ...SHELL_COMPUTATIONS,
  ...RUNOUT_COMPUTATIONS,
  ...RATIO_COMPUTATIONS,
  ...DECK_COMPUTATIONS,
  ...ASSEMBLY_COMPUTATIONS,
  ...TORQUE_COMPUTATIONS,
  ...CASTLE_NUT_COMPUTATIONS,
  ...HONE_COMPUTATIONS,
  ...VALVE_COMPUTATIONS,
  ...SPRING_COMPUTATIONS,
  ...TIMING_COMPUTATIONS,
  ...PRESSURE_COMPUTATIONS,
  ...RUNNING_COMPUTATIONS,
  ...GRADE_COMPUTATIONS,
  ...CONFORMANCE_COMPUTATIONS,
  ...STATISTICS_COMPUTATIONS,
  ...UNCERTAINTY_COMPUTATIONS,
  ...UNIT_COMPUTATIONS,
];
