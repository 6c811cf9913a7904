// The plan of a build: the steps of its engine in their order, from the sheet where the shop wrote them down, else from its kind.
import { type Engine, suits } from "../spec/engine.ts";
import { STEPS, type Step, type StepId } from "./steps.ts";

/** A step of one sheet's plan; all its fields stand, and those it names are steps of the same plan. */
export interface PlanStep extends Pick<Step, "id" | "title" | "spoken" | "hides"> {
  readonly after: readonly StepId[];
}

/** What of a sheet makes its plan. A step the sheet asks something of is one of its steps. */
export interface Planned {
  readonly engine: Engine;
  readonly plan?:
    | readonly {
        readonly id: StepId;
        readonly title: string;
        readonly after: readonly StepId[];
        readonly hides?: readonly StepId[] | undefined;
      }[]
    | undefined;
  readonly expected?: readonly { readonly step: StepId }[];
  readonly proofs?: readonly { readonly step: StepId }[];
}

const LIBRARY: ReadonlyMap<StepId, Step> = new Map(STEPS.map((step) => [step.id, step]));

/** Steps before a step, with those of a step that is not there standing in for it. */
function before(step: Step, engine: Engine, there: (id: StepId) => boolean, seen: Set<StepId> = new Set()): StepId[] {
  return step.after.flatMap((after) => {
    const [id, needs] = typeof after === "string" ? [after] : after;
    if (seen.has(id) || (needs !== undefined && !suits(engine, [needs]))) return [];
    seen.add(id);
    const own = LIBRARY.get(id);
    return there(id) ? [id] : own === undefined ? [] : before(own, engine, there, seen);
  });
}

/** The plan that an engine's kind makes, with the steps in `asked` whatever the kind is. */
export function planFor(engine: Engine, asked: ReadonlySet<StepId> = new Set()): PlanStep[] {
  const steps = STEPS.filter(({ id, needs }) => suits(engine, needs) || asked.has(id));
  const ids = new Set(steps.map(({ id }) => id));
  const there = (id: StepId) => ids.has(id);
  return steps.map((step) => ({
    id: step.id,
    title: step.title,
    spoken: step.spoken,
    after: before(step, engine, there),
    hides: step.hides.filter(there),
  }));
}

/** A step keeps its usual names beside the one that the sheet gives it. */
function waysToSay(id: StepId, title: string): readonly string[] {
  const own = LIBRARY.get(id);
  const named = title
    .toLowerCase()
    .replaceAll(/[^a-z0-9' ]+/g, " ")
    .trim();
  return own?.title === title ? own.spoken : [named, ...(own?.spoken ?? [])];
}

const PLANS = new WeakMap<Planned, readonly PlanStep[]>();

/** The steps of a sheet in their order. */
export function planOf(sheet: Planned): readonly PlanStep[] {
  const known = PLANS.get(sheet);
  if (known !== undefined) return known;
  const asked = new Set([...(sheet.expected ?? []), ...(sheet.proofs ?? [])].map(({ step }) => step));
  const plan =
    sheet.plan?.map(({ id, title, after, hides = [] }) => ({ id, title, spoken: waysToSay(id, title), after, hides })) ??
    planFor(sheet.engine, asked);
  PLANS.set(sheet, plan);
  return plan;
}

/** The plan as a sheet writes it down. */
export const writtenPlan = (sheet: Planned): { id: StepId; title: string; after: StepId[]; hides: StepId[] }[] =>
  planOf(sheet).map(({ id, title, after, hides }) => ({ id, title, after: [...after], hides: [...hides] }));

/** What a step is called: by the sheet, else by the library, which has those that a sheet dropped; else its id. */
export const stepTitle = (id: string, sheet?: Planned): string =>
  (sheet === undefined ? undefined : planOf(sheet).find((step) => step.id === id)?.title) ??
  LIBRARY.get(id as StepId)?.title ??
  id.replaceAll("_", " ");
