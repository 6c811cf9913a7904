// One size for a set: all bores to one oversize, pistons to match them, all journals of a kind to one undersize.
import type { LoggedReading } from "../build/build.ts";
import { placeLabel } from "../places/places.ts";
import type { QuantityId } from "../quantities/types.ts";
import type { RuleContext } from "./context.ts";
import { valueIn, within } from "./figures/pick.ts";
import { groundSet } from "./ground-set.ts";
import type { Rule } from "./rule.ts";
import { lengthLabel, list, sizeStep } from "./text.ts";

interface SetRow {
  readonly tag: string;
  readonly quantities: readonly QuantityId[];
  readonly what: string;
  readonly source: string;
  keep(logged: LoggedReading, context: RuleContext): boolean;
}

const SETS: readonly SetRow[] = [
  {
    tag: "bores",
    quantities: ["bore_oversize", "piston_oversize"],
    what: "Bores and pistons",
    source: "common practice, no source",
    keep: () => true,
  },
  {
    tag: "mains",
    quantities: ["journal_undersize"],
    what: "Main journals",
    source: "TM 5-3805-262-34: if one journal is to be ground, grind all",
    keep: (logged, context) => groundSet(logged, context) === "mains",
  },
  {
    tag: "crankpins",
    quantities: ["journal_undersize"],
    what: "Crankpins",
    source: "TM 5-3805-262-34: if one journal is to be ground, grind all",
    keep: (logged, context) => groundSet(logged, context) === "crankpins",
  },
];

function sizes(row: SetRow, context: RuleContext): LoggedReading[] {
  return row.quantities.flatMap((quantity) => within(context, quantity, {})).filter((logged) => row.keep(logged, context));
}

export const ONE_SIZE: Rule = {
  id: "one_size",
  title: "A set is machined to one size",
  subjects: (key) => {
    if (key.kind !== "reading") return [];
    return SETS.filter((row) => row.quantities.some((quantity) => quantity === key.name)).map(({ tag }) => ({ place: {}, tag }));
  },
  check: ({ tag }, context) => {
    const row = SETS.find((candidate) => candidate.tag === tag);
    const found = row === undefined ? [] : sizes(row, context);
    if (row === undefined || found.length < 2) return undefined;
    const steps = [...new Set(found.map((logged) => valueIn(logged, "in")))];
    const same = steps.length === 1;
    const said = found.map((logged) => {
      const where = placeLabel(logged.reading.place);
      return `${sizeStep(valueIn(logged, "in"))}${where === "" ? "" : ` (${where})`}`;
    });
    return {
      rule: "one_size",
      verdict: same ? "pass" : "fail",
      place: {},
      value: steps.length,
      limit: "one size",
      unit: null,
      why: `${row.what} are ${same ? `all ${sizeStep(steps[0] ?? 0)} ${lengthLabel()} off standard` : `of ${steps.length} sizes: ${list(said)} ${lengthLabel()} off standard`}.`,
      source: row.source,
      ...(same ? {} : { remedy: "Take the whole set to the size that the worst one needs, or say which figure was misheard." }),
      evidence: found.flatMap((logged) => logged.evidence),
    };
  },
};
