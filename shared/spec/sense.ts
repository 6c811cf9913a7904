// What a sheet that is well formed can still get wrong: figures nobody knows, units that cannot be held, limits the wrong way round.
import { dimensionOf } from "../compute/units.ts";
import { QUANTITIES } from "../quantities/registry.ts";
import { FIGURES } from "../rules/figures/figures.ts";
import type { Limit, Spec } from "./spec.ts";

export interface Nonsense {
  readonly path: readonly (string | number)[];
  /** "Expected X for Y, got Z". */
  readonly say: string;
}

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
  if (perInch && limit.unit !== "in") {
    found.push({
      path: [...path, "unit"],
      say: `Expected in for a limit by the inch of ${limit.perInchOf}, got "${limit.unit}"`,
    });
  }
  return found;
}

function twice(ids: readonly string[], list: string): Nonsense[] {
  return ids.flatMap((id, i) =>
    ids.indexOf(id) === i ? [] : [{ path: [list, i, "id"], say: `Expected an id of its own, got "${id}" a second time` }],
  );
}

function ofFasteners({ fasteners }: Spec): Nonsense[] {
  return Object.entries(fasteners).flatMap(([name, row]) => {
    if (row === undefined) return [];
    const found: Nonsense[] = [];
    if (above(row.low, row.high)) {
      found.push({ path: ["fasteners", name, "low"], say: `Expected a low at or below the high of ${row.high}, got ${row.low}` });
    }
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
