// The condition a reading was taken in, where nobody said it: by the step it was taken at.
import { QUANTITIES } from "../quantities/registry.ts";
import type { QuantityId } from "../quantities/types.ts";
import type { Condition } from "../spec/spec.ts";
import type { StepId } from "../steps/steps.ts";

const AS_FOUND: readonly StepId[] = ["intake", "teardown", "cleaning", "crack_check", "soak", "bores", "crankshaft"];

/** `as_found` up to the first machining steps, `final` after them. The quantity's usual step stands in for an unknown one. */
export function conditionFor(quantity: QuantityId, step: StepId | undefined): Condition {
  const at = step ?? QUANTITIES[quantity].steps[0];
  return at !== undefined && AS_FOUND.includes(at) ? "as_found" : "final";
}
