// The job's order: a step opened before one that must come first is said, since the next part hides what was skipped.
import { type PlanStep, planOf, stepTitle } from "../steps/plan.ts";
import type { StepId } from "../steps/steps.ts";
import type { RuleContext } from "./context.ts";
import type { Rule, Subject } from "./rule.ts";
import { list } from "./text.ts";

const stepNamed = (id: string, { spec }: RuleContext): PlanStep | undefined => planOf(spec).find((step) => step.id === id);

/** Whether the sheet asks anything of a step: one that it never mentions may be skipped without a word. */
function isAskedFor(id: StepId, { spec }: RuleContext): boolean {
  return spec.expected.some((row) => row.step === id) || spec.proofs.some((proof) => proof.step === id);
}

export const STEP_ORDER: Rule = {
  id: "step_order",
  title: "Steps taken in their order",
  subjects: (key, { spec }) => {
    if (key.kind !== "step") return [];
    const touched = planOf(spec).filter((step) => step.id === key.name || step.after.some((before) => before === key.name));
    return touched.map((step): Subject => ({ place: {}, tag: step.id }));
  },
  check: ({ tag }, context) => {
    const step = stepNamed(tag, context);
    const record = step === undefined ? undefined : context.build.steps.get(step.id);
    if (step === undefined || record === undefined || step.after.length === 0) return undefined;
    const late = step.after.filter((id) => (context.build.steps.get(id)?.openedOrder ?? -1) > record.openedOrder);
    const never = step.after.filter((id) => !context.build.steps.has(id) && isAskedFor(id, context));
    const base = { rule: "step_order", place: {}, value: null, limit: null, unit: null, step: step.id, evidence: [] };
    if (late.length === 0 && never.length === 0) {
      if (!step.after.some((id) => context.build.steps.has(id))) return undefined;
      return { ...base, verdict: "pass", why: `"${step.title}" was opened after the steps it rests on.` };
    }
    const first = [...late, ...never];
    const title = (id: StepId) => `"${stepTitle(id, context.spec)}"`;
    return {
      ...base,
      verdict: "warn",
      why: `"${step.title}" was opened before ${list(first.map(title))}${never.length > 0 ? ", not opened yet" : ""}.`,
      source: "common practice, no source",
      remedy: `Do ${list(first.map(title))} and check again what "${step.title}" rests on.`,
    };
  },
};
