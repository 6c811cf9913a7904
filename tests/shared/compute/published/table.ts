// Every check of a computation as one table: what it rests on, what is published or worked out elsewhere, what we say, and by how much they differ.
import { figureOf, partOf } from "../ask.ts";
import { ASSEMBLY } from "./assembly.ts";
import { ENGINE } from "./engine.ts";
import { FASTENING } from "./fastening.ts";
import { PARTS } from "./parts.ts";
import { SIZES } from "./sizes.ts";
import { STANDARDS } from "./standards.ts";
import type { Cases } from "./types.ts";

export const CASES: Cases = { ...SIZES, ...ASSEMBLY, ...ENGINE, ...FASTENING, ...STANDARDS };

/** How a check's expected value came about, by what its source says of itself. */
export type SourceClass = "published" | "by a published rule" | "from memory" | "common practice" | "worked out";

const CLASSES: readonly (readonly [SourceClass, RegExp])[] = [
  ["from memory", /memory/],
  ["by a published rule", /^by /],
  ["common practice", /common practice|no source/],
  [
    "worked out",
    /^(thread )?(geometry|first principles|arithmetic|definition|kinematics|Hooke's law|Pythagoras|law of cosines|Gay-Lussac|the same)/,
  ],
];

export const classOf = (source: string): SourceClass => CLASSES.find(([, pattern]) => pattern.test(source))?.[0] ?? "published";

export interface Row {
  readonly ask: string;
  readonly sourceClass: SourceClass;
  readonly source: string;
  readonly published: unknown;
  readonly ours: unknown;
  readonly difference: number | undefined;
}

const short = (value: unknown): string => (typeof value === "number" ? String(Number(value.toPrecision(7))) : String(value));

/** One row a check, in the order of the files. */
export function rows(): Row[] {
  const single = Object.values(CASES).flatMap((cases) =>
    cases.map(([source, ask, published]) => ({ source, ask, published, ours: figureOf(ask) as unknown })),
  );
  const named = PARTS.map(([source, ask, part, published]) => ({
    source,
    ask: `${ask}: ${part}`,
    published,
    ours: partOf(ask, part),
  }));
  return [...single, ...named].map((row) => ({
    ...row,
    sourceClass: classOf(row.source),
    difference: typeof row.published === "number" && typeof row.ours === "number" ? row.ours - row.published : undefined,
  }));
}

/** The table as text, columns apart by a bar. */
export function table(): string {
  const lines = rows().map(({ ask, sourceClass, source, published, ours, difference }) =>
    [
      ask,
      sourceClass,
      source,
      short(published),
      short(ours),
      difference === undefined ? "same" : difference.toExponential(1),
    ].join(" | "),
  );
  return ["computation | class | source | published | ours | difference", ...lines].join("\n");
}
