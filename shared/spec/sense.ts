// What a sheet that is well formed can still get wrong: figures nobody knows, units that cannot be held, limits the wrong way round.
import { dimensionOf } from "../compute/units.ts";
import { QUANTITIES } from "../quantities/registry.ts";
import { FIGURES } from "../rules/figures/figures.ts";
import type { StepId } from "../steps/steps.ts";
import { type Nonsense, ofFigures, ofNominals, ofSteps, ofThread } from "./sense-sizes.ts";
import { type Engine, type Limit, type Spec, specSchema } from "./spec.ts";

export type { Nonsense };

type Bound = string | undefined;
const above = (a: Bound, b: Bound): boolean => a !== undefined && b !== undefined && Number(a) > Number(b);

function ofLimit(limit: Limit, path: Nonsense["path"]): Nonsense[] {
  const figure = FIGURES.get(limit.on);
  if (figure === undefined) {
    return [{ path: [...path, "on"], say: `Expected a quantity or figure that is worked out, got "${limit.on}"` }];
  }
  const found: Nonsense[] = [];
  const perInch = limit.perInchOf !== undefined;
  if (dimensionOf(limit.unit) !== dimensionOf(figure.unit)) {
    found.push({
      path: [...path, "unit"],
      say: `Expected a unit of ${dimensionOf(figure.unit)} for ${limit.on}, got "${limit.unit}"`,
    });
  }
  const { accept, reject } = limit;
  if (accept.low === undefined && accept.high === undefined) {
    found.push({ path: [...path, "accept"], say: "Expected a low or a high figure, got neither" });
  }
  if (above(accept.low, accept.high)) {
    found.push({
      path: [...path, "accept", "low"],
      say: `Expected a low at or below the high of ${accept.high}, got ${accept.low}`,
    });
  }
  if (above(reject?.low, accept.low)) {
    found.push({
      path: [...path, "reject", "low"],
      say: `Expected a reject limit at or below the accepted ${accept.low}, got ${reject?.low}`,
    });
  }
  if (above(accept.high, reject?.high)) {
    found.push({
      path: [...path, "reject", "high"],
      say: `Expected a reject limit at or above the accepted ${accept.high}, got ${reject?.high}`,
    });
  }
  // A share of a size is the same in both systems: so many mm by the mm, so many in by the in.
  if (perInch && limit.unit !== "in" && limit.unit !== "mm") {
    found.push({
      path: [...path, "unit"],
      say: `Expected in or mm for a limit by the length of ${limit.perInchOf}, got "${limit.unit}"`,
    });
  }
  return found;
}

function twice(ids: readonly string[], list: string): Nonsense[] {
  return ids.flatMap((id, i) =>
    ids.indexOf(id) === i ? [] : [{ path: [list, i, "id"], say: `Expected an id of its own, got "${id}" a second time` }],
  );
}

function ofFasteners(spec: Spec): Nonsense[] {
  return Object.entries(spec.fasteners).flatMap(([name, row]) => {
    if (row === undefined) return [];
    const found: Nonsense[] = [];
    if (above(row.low, row.high)) {
      found.push({ path: ["fasteners", name, "low"], say: `Expected a low at or below the high of ${row.high}, got ${row.low}` });
    }
    if (!(Number(row.k) > 0)) found.push({ path: ["fasteners", name, "k"], say: `Expected more than zero, got ${row.k}` });
    found.push(...ofThread(name, row, spec));
    const { order = [] } = row;
    const again = order.findIndex((nut, i) => order.indexOf(nut) !== i);
    if (again >= 0)
      found.push({
        path: ["fasteners", name, "order", again],
        say: `Expected each nut once in the order, got ${order[again]} again`,
      });
    const stages = row.stages ?? [];
    const back = stages.findIndex((stage, i) => above(stages[i - 1], stage));
    if (back >= 0)
      found.push({
        path: ["fasteners", name, "stages", back],
        say: `Expected stages that rise, got ${stages[back]} after ${stages[back - 1]}`,
      });
    return found;
  });
}

function ofExpected({ expected }: Spec): Nonsense[] {
  return expected.flatMap((row, i) => {
    const { needs, needsOneOf = [], may } = QUANTITIES[row.quantity];
    const known: readonly string[] = [...needs, ...needsOneOf, ...may];
    const stray = row.each.findIndex((slot) => !known.includes(slot));
    return stray < 0
      ? []
      : [
          {
            path: ["expected", i, "each", stray],
            say: `Expected one of ${known.join(", ") || "no slots"} for ${row.quantity}, got "${row.each[stray]}"`,
          },
        ];
  });
}

/** Every cylinder once, in some order. */
const isWhole = (numbers: readonly number[], cylinders: number): boolean =>
  numbers.length === cylinders && [...numbers].sort((a, b) => a - b).every((cylinder, i) => cylinder === i + 1);

function ofEngine({ engine }: Spec): Nonsense[] {
  const { cylinders, firingOrder, crankpins, banks, arrangement } = engine;
  const once = (field: string, numbers: readonly number[], text: string): Nonsense[] =>
    isWhole(numbers, cylinders)
      ? []
      : [{ path: ["engine", field], say: `Expected each of ${cylinders} cylinders once, got ${text}` }];
  return [
    ...(firingOrder.length === 0 ? [] : once("firingOrder", firingOrder, firingOrder.join("-"))),
    ...(crankpins === undefined ? [] : once("crankpins", crankpins.flat(), crankpins.map((rods) => rods.join("+")).join(", "))),
    ...(banks === undefined
      ? []
      : once(
          "banks",
          banks.flatMap((bank) => bank.cylinders),
          banks.map((bank) => `${bank.name} ${bank.cylinders.join("+")}`).join(", "),
        )),
    ...(arrangement === "single" && cylinders !== 1
      ? [{ path: ["engine", "cylinders"], say: `Expected 1 cylinder for a single, got ${cylinders}` }]
      : []),
  ];
}

/** A plan whose steps are told apart, come after what they rest on, and have all that the sheet asks for. */
function ofPlan({ plan, expected, proofs }: Spec): Nonsense[] {
  if (plan === undefined) return [];
  const ids = plan.map(({ id }) => id);
  const late = plan.flatMap(({ id, after }, i) =>
    after.flatMap((before, j): Nonsense[] => {
      if (ids.indexOf(before) >= 0 && ids.indexOf(before) < i) return [];
      const got = ids.includes(before) ? `${before} behind it` : `no ${before} in the plan`;
      return [{ path: ["plan", i, "after", j], say: `Expected ${before} before ${id}, got ${got}` }];
    }),
  );
  const strays = (list: "expected" | "proofs", rows: readonly { readonly step: StepId }[]): Nonsense[] =>
    rows.flatMap(({ step }, i) =>
      ids.includes(step) ? [] : [{ path: [list, i, "step"], say: `Expected a step of the plan, got "${step}"` }],
    );
  return [...twice(ids, "plan"), ...late, ...strays("expected", expected), ...strays("proofs", proofs)];
}

/** Everything on a well-formed sheet that the rules could not use or would use wrongly; empty for a sound sheet. */
export function nonsenseIn(spec: Spec): Nonsense[] {
  return [
    ...ofEngine(spec),
    ...ofPlan(spec),
    ...ofNominals(spec),
    ...ofSteps(spec),
    ...ofFigures(spec),
    ...ofFasteners(spec),
    ...spec.limits.flatMap((limit, i) => ofLimit(limit, ["limits", i])),
    ...twice(
      spec.limits.map((limit) => limit.id),
      "limits",
    ),
    ...ofExpected(spec),
    ...twice(
      spec.proofs.map((proof) => proof.id),
      "proofs",
    ),
  ];
}

export type Checked =
  | { readonly ok: true; readonly spec: Spec }
  | { readonly ok: false; readonly path: readonly PropertyKey[]; readonly say: string };

/** A sheet as a file would be checked: of its form, then of its sense; what was senseless `before` is not held against a change. */
export function checkSheet(raw: unknown, before?: Spec): Checked {
  const read = specSchema.safeParse(raw);
  if (!read.success) {
    const issue = read.error.issues[0];
    return { ok: false, path: issue?.path ?? [], say: issue?.message ?? "Expected a sheet" };
  }
  const old = new Set(before === undefined ? [] : nonsenseIn(before).map(({ say }) => say));
  const fault = nonsenseIn(read.data).find(({ say }) => !old.has(say));
  return fault === undefined ? { ok: true, spec: read.data } : { ok: false, path: fault.path, say: fault.say };
}

/** An engine without the fields that make no sense of it. */
function engineWithout(engine: Engine, isBad: (field: string) => boolean): Engine {
  const { crankpins, banks, ...rest } = engine;
  return {
    ...rest,
    ...(crankpins === undefined || isBad("crankpins") ? {} : { crankpins }),
    ...(banks === undefined || isBad("banks") ? {} : { banks }),
    ...(isBad("firingOrder") ? { firingOrder: [] } : {}),
  };
}

/**
 * A sheet as the rules can use it: of its rows (sizes, figures, limits, fasteners, expected readings, proofs) those that make
 * no sense are left out, and a firing order that names no engine of that many cylinders.
 */
export function withoutNonsense(spec: Spec): { readonly spec: Spec; readonly nonsense: readonly Nonsense[] } {
  const nonsense = nonsenseIn(spec);
  if (nonsense.length === 0) return { spec, nonsense };
  const isBad = (list: string, row: string | number) => nonsense.some(({ path }) => path[0] === list && path[1] === row);
  const kept = <T>(list: string, rows: readonly T[]): T[] => rows.filter((_, i) => !isBad(list, i));
  const keptBy = <T extends object>(list: string, rows: T): T =>
    Object.fromEntries(Object.entries(rows).filter(([name]) => !isBad(list, name))) as T;
  const { plan, ...known } = spec;
  const sound: Spec = {
    ...known,
    // A plan with a fault in it is no plan: that of the engine's kind stands in.
    ...(plan === undefined || nonsense.some(({ path }) => path[0] === "plan") ? {} : { plan }),
    engine: engineWithout(spec.engine, (field) => isBad("engine", field)),
    nominals: keptBy("nominals", spec.nominals),
    figures: keptBy("figures", spec.figures),
    oversizes: kept("oversizes", spec.oversizes),
    undersizes: kept("undersizes", spec.undersizes),
    fasteners: keptBy("fasteners", spec.fasteners),
    limits: kept("limits", spec.limits),
    expected: kept("expected", spec.expected),
    proofs: kept("proofs", spec.proofs),
  };
  return { spec: sound, nonsense };
}
