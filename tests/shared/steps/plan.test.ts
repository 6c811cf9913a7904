// The plan is data of the sheet: the shop adds, drops, renames and reorders steps, and what was logged at a dropped one stays readable.
import { describe, expect, it } from "vitest";
import { parse } from "../../../extractors/speech/index.ts";
import { foldBuild } from "../../../shared/build/index.ts";
import { evaluate } from "../../../shared/rules/index.ts";
import { EXAMPLES } from "../../../shared/spec/examples/index.ts";
import { readSpecFile, writeSpecFile } from "../../../shared/spec/read.ts";
import { nonsenseIn } from "../../../shared/spec/sense.ts";
import type { Spec } from "../../../shared/spec/spec.ts";
import { planOf, stepTitle } from "../../../shared/steps/plan.ts";
import { STEPS } from "../../../shared/steps/steps.ts";
import { BenchLog } from "../rules/bench-log.ts";

type Plan = NonNullable<Spec["plan"]>;
const own = (spec: Spec): Plan =>
  planOf(spec).map(({ id, title, after, hides }) => ({ id, title, after: [...after], hides: [...hides] }));
const PLAN = own(EXAMPLES.six);
const withPlan = (plan: Plan, spec: Spec = EXAMPLES.six): Spec => ({ ...spec, plan });
const without = (id: string, plan: Plan = PLAN): Plan =>
  plan
    .filter((step) => step.id !== id)
    .map((step) => ({
      ...step,
      after: step.after.filter((before) => before !== id),
      hides: (step.hides ?? []).filter((one) => one !== id),
    }));
const asksNothing = (spec: Spec): Spec => ({ ...spec, expected: [], proofs: [] });

describe("the plan on the sheet", () => {
  it("written down is the same plan, there and back through the file", () => {
    const sheet = withPlan(PLAN);
    expect(nonsenseIn(sheet)).toEqual([]);
    expect(planOf(sheet)).toEqual(planOf(EXAMPLES.six));
    expect(readSpecFile(writeSpecFile(sheet), "six.yaml")).toEqual({ ok: true, spec: sheet });
  });

  it.each(Object.entries(EXAMPLES))(
    "of the worked %s has the steps that used to be missing, where its kind has them",
    (_name, sheet) => {
      const ids = planOf(sheet).map(({ id }) => id);
      for (const id of ["final_wash", "valve_timing", "ignition_timing", "run_in", "balance", "cam_bearings"] as const)
        expect(ids).toContain(id);
      expect(ids.includes("oil_pump")).toBe(sheet.engine.oiling !== "splash");
      expect(ids.includes("core_plugs")).toBe(sheet.engine.cooling !== "air");
      expect(ids.includes("splash")).toBe(sheet.engine.oiling === "splash");
      expect(ids.indexOf("cam")).toBeLessThan(ids.indexOf("valve_timing"));
    },
  );

  const swapped = [...PLAN];
  const [cam, timing] = [PLAN.findIndex(({ id }) => id === "cam"), PLAN.findIndex(({ id }) => id === "valve_timing")];
  [swapped[cam], swapped[timing]] = [swapped[timing] as Plan[number], swapped[cam] as Plan[number]];

  it.each([
    ["a step before what it rests on", swapped, `plan.${cam}.after.0: Expected cam before valve_timing, got cam behind it`],
    [
      "a step that rests on one that was dropped",
      PLAN.filter(({ id }) => id !== "soak"),
      "Expected soak before bores, got no soak in the plan",
    ],
    ["a step twice", [...PLAN, PLAN[0] as Plan[number]], 'Expected an id of its own, got "intake" a second time'],
    ["a dropped step that readings are asked of", without("rings"), 'Expected a step of the plan, got "rings"'],
  ] as const)("%s is refused with one sentence", (_what, plan, say) => {
    const said = nonsenseIn(withPlan([...plan])).map(({ path, say: text }) => `${path.join(".")}: ${text}`);
    expect(said.join("\n")).toContain(say);
  });

  it("a step that it renames or adds is opened by its name, one that it drops is not", () => {
    const named = PLAN.map((step) => (step.id === "rings" ? { ...step, title: "Ring work" } : step));
    const added: Plan = [...without("balance", named), { id: "shop_1", title: "Paint", after: ["final_torque"] }];
    const sheet = withPlan(added);
    expect(nonsenseIn(sheet)).toEqual([]);
    const opened = (words: string) => parse(words, {}, sheet).commands.map(({ step }) => step);
    expect(opened("open ring work")).toEqual(["rings"]);
    expect(opened("open rings")).toEqual(["rings"]);
    expect(opened("open paint")).toEqual(["shop_1"]);
    expect(opened("open balance")).toEqual([]);
    expect(stepTitle("shop_1", sheet)).toBe("Paint");
  });
});

describe("a step that is dropped", () => {
  it("leaves what was logged at it readable, judged and named", () => {
    const log = new BenchLog(withPlan(PLAN));
    for (const step of ["crack_check", "cam_bearings", "cam"] as const) log.add("step.opened", { step });
    log.read("cam_runout", {}, 0.003, { step: "cam" });
    log.add("step.closed", { step: "cam" });
    const before = evaluate(log.fold()).filter(({ rule }) => rule === "cam_runout");
    log.add("spec.revised", { spec: { ...asksNothing(withPlan(without("cam"))), version: 2 } });
    const build = foldBuild(log.events);
    expect(planOf(build.spec).map(({ id }) => id)).not.toContain("cam");
    expect([...build.readings.values()].map(({ step, status }) => [step, status])).toEqual([["cam", "counted"]]);
    expect(evaluate(build).filter(({ rule }) => rule === "cam_runout")).toEqual(before);
    expect(build.steps.get("cam")?.closed).toBeDefined();
    expect(stepTitle("cam", build.spec)).toBe("Cam, followers, gears");
  });

  it("of a plan with a fault in it, the plan of the engine's kind stands in for an older log", () => {
    const log = new BenchLog({ ...EXAMPLES.six, plan: [...PLAN].reverse() });
    const build = log.fold();
    expect(planOf(build.spec)).toEqual(planOf(EXAMPLES.six));
  });
});

it("no id of the library is ever without a title", () => {
  for (const { id } of STEPS) expect(stepTitle(id).length).toBeGreaterThan(2);
});
