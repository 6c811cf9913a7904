// The rules in the order their findings are listed. Adding a rule is one file and one line here.
import { BOLT_STRESS } from "./bolt-stress.ts";
import { CALIBRATION, WRENCH_RANGE } from "./calibration.ts";
import { CASTLE_NUT } from "./castle-nut.ts";
import { CONTRADICTION } from "./contradictions.ts";
import { COTTER } from "./cotter.ts";
import { DECIDED_SIZE } from "./decided-size.ts";
import { INSTRUMENT_STEP, INSTRUMENT_ZERO } from "./instruments.ts";
import { LIMITS } from "./limits.ts";
import { MISSING_PHOTOS } from "./missing-photos.ts";
import { MISSING_READINGS } from "./missing-readings.ts";
import { ONE_SIZE } from "./one-size.ts";
import { PHOTO_DOUBTS } from "./photo-doubts.ts";
import { PISTON_HEAT } from "./piston-heat.ts";
import { READING_ORDER } from "./reading-order.ts";
import { RING_STAGGER } from "./ring-stagger.ts";
import type { Rule } from "./rule.ts";
import { SAID_FAULT } from "./said-faults.ts";
import { SHIM_FORBIDDEN, SHIM_MATCH, SHIM_RETURN } from "./shims.ts";
import { STALE_READING, WAITING_READING } from "./stale.ts";
import { STEP_ORDER } from "./step-order.ts";
import { TEMPERATURE } from "./temperature.ts";
import { TIGHTENING } from "./tightening.ts";
import { TORQUE } from "./torque.ts";
import { UNIT_PAIR } from "./unit-pairs.ts";

export const RULES: readonly Rule[] = [
  // What was measured, against what it should be.
  LIMITS,
  PISTON_HEAT,
  TORQUE,
  TIGHTENING,
  BOLT_STRESS,
  CASTLE_NUT,
  COTTER,
  SHIM_FORBIDDEN,
  SHIM_MATCH,
  SHIM_RETURN,
  DECIDED_SIZE,
  ONE_SIZE,
  RING_STAGGER,
  SAID_FAULT,
  // Whether what was measured can be believed.
  CONTRADICTION,
  UNIT_PAIR,
  TEMPERATURE,
  INSTRUMENT_ZERO,
  CALIBRATION,
  WRENCH_RANGE,
  INSTRUMENT_STEP,
  STALE_READING,
  WAITING_READING,
  READING_ORDER,
  PHOTO_DOUBTS,
  // Whether the job is whole.
  STEP_ORDER,
  MISSING_READINGS,
  MISSING_PHOTOS,
];
