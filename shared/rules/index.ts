// The door to the rules.
import type { Build } from "../build/build.ts";
import { Evaluator } from "./evaluator.ts";
import type { Finding } from "./finding.ts";

export { type Change, Evaluator } from "./evaluator.ts";
export { type Finding, findingSchema, isOpen, VERDICTS, type Verdict } from "./finding.ts";
export { RULES } from "./rules.ts";

/** All findings about a build as it stands. Use an `Evaluator` to follow a build event by event. */
export function evaluate(build: Build): Finding[] {
  return new Evaluator(build).findings();
}
export { decideBore, decideGrind, type SizeDecision } from "./decisions.ts";
export { judgeReading } from "./judge.ts";
export { type Outcome, type Supposed, type Supposition, standing, whatIf } from "./what-if.ts";
