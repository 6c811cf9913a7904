// What a sheet that is well formed can still get wrong: figures nobody knows, units that cannot be held, limits the wrong way round.
import { dimensionOf } from "../compute/units.ts";
import { QUANTITIES } from "../quantities/registry.ts";
import { FIGURES } from "../rules/figures/figures.ts";
import { type Nonsense, ofFigures, ofNominals, ofSteps, ofThread } from "./sense-sizes.ts";
import type { Limit, Spec } from "./spec.ts";

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

function ofEngine({ engine }: Spec): Nonsense[] {
  const sorted = [...engine.firingOrder].sort((a, b) => a - b);
  const whole = sorted.length === engine.cylinders && sorted.every((cylinder, i) => cylinder === i + 1);
  if (sorted.length === 0 || whole) return [];
  return [
    {
      path: ["engine", "firingOrder"],
      say: `Expected each of ${engine.cylinders} cylinders once, got ${engine.firingOrder.join("-")}`,
    },
  ];
}

/** Everything on a well-formed sheet that the rules could not use or would use wrongly; empty for a sound sheet. */
export function nonsenseIn(spec: Spec): Nonsense[] {
  return [
    ...ofEngine(spec),
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
  const sound: Spec = {
    ...spec,
    engine: isBad("engine", "firingOrder") ? { ...spec.engine, firingOrder: [] } : spec.engine,
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
