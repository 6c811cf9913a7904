// The next common oversize of a bore or undersize of a journal that cleans up all wear, and how half-shells follow it.
import { COMMON_PRACTICE, computation, GEOMETRY, inches, input } from "./computation.ts";
import { ABOVE_ZERO, NOT_NEGATIVE } from "./domain.ts";
import { type Inch, inch, minus, plus, times } from "./measure.ts";

/** Common steps (standard practice; TM 55-1905-219-14-11 lists .001 to .030 for one liner, TM 5-3805-262-34 .010 to .030 for journals). */
export const COMMON_OVERSIZES: readonly Inch[] = [0.01, 0.02, 0.03, 0.04, 0.05, 0.06].map(inch);
export const COMMON_UNDERSIZES: readonly Inch[] = [0.01, 0.02, 0.03].map(inch);
/** Left on the diameter for cleaning up a bore, and a journal (common practice, no source). */
export const BORE_CLEANUP = inch(0.004);
export const JOURNAL_CLEANUP = inch(0.001);

export interface Score {
  /** Diameter where the score is. */
  readonly at: Inch;
  /** Depth of the score below the wall. */
  readonly depth: Inch;
}

export interface NextSize {
  /** The diameter that would just clean up. */
  readonly needed: Inch;
  /** The step to take; undefined when none of the steps is enough. */
  readonly step: Inch | undefined;
  /** Finished size at that step. */
  readonly size: Inch | undefined;
}

/** Smallest oversize at which every bore cleans up: max(largest, score's diameter + 2 x depth) + cleanup <= standard + oversize. */
export function nextOversize(
  largest: Inch,
  standard: Inch,
  scores: readonly Score[] = [],
  steps: readonly Inch[] = COMMON_OVERSIZES,
  cleanup: Inch = BORE_CLEANUP,
): NextSize {
  const rough = [largest, ...scores.map((score) => plus(score.at, times(score.depth, 2)))].reduce((a, b) => (a > b ? a : b));
  const needed = plus(rough, cleanup);
  const step = [...steps].sort((a, b) => a - b).find((oversize) => plus(standard, oversize) >= needed);
  return { needed, step, size: step === undefined ? undefined : plus(standard, step) };
}

/** Smallest undersize at which a journal cleans up anywhere in its band: standard's high limit - undersize <= smallest - cleanup. */
export function nextUndersize(
  smallest: Inch,
  standardHigh: Inch,
  steps: readonly Inch[] = COMMON_UNDERSIZES,
  cleanup: Inch = JOURNAL_CLEANUP,
): NextSize {
  const needed = minus(smallest, cleanup);
  const step = [...steps].sort((a, b) => a - b).find((undersize) => minus(standardHigh, undersize) <= needed);
  return { needed, step, size: step === undefined ? undefined : minus(standardHigh, step) };
}

function answerFor(next: NextSize, what: string) {
  if (next.step === undefined || next.size === undefined) {
    throw new RangeError(
      `Expected a step that cleans up to ${next.needed} in, got none among the ${what}s: sleeve, weld up or renew`,
    );
  }
  return { value: next.step, parts: { size: inches(next.size), needed: inches(next.needed) } };
}

export const SIZE_STEP_COMPUTATIONS = [
  computation({
    id: "next-oversize",
    title: "Next common oversize of a bore",
    inputs: {
      largest: input.number("in", "largest diameter found in any bore", ABOVE_ZERO),
      standard: input.number("in", "standard bore", ABOVE_ZERO),
      score: input.optional("in", "depth of the deepest score", NOT_NEGATIVE),
      "score-diameter": input.optional("in", "diameter where the score is; the largest when left out", ABOVE_ZERO),
      cleanup: input.optional("in", "left on the diameter to clean up, 0.004 in when left out", NOT_NEGATIVE),
      oversizes: {
        ...input.list("in", "steps to be had; .010 to .060 by .010 when left out", 1, 24, ABOVE_ZERO),
        optional: true as const,
      },
    },
    unit: "in",
    formula: "smallest oversize with standard + oversize >= max(largest, score_diameter + 2 score) + cleanup",
    source:
      "smallest standard size at which the bore cleans up: common practice of service manuals; cleanup .003 to .005 common practice, no source",
    run: (x) => {
      const scores = x.score === undefined ? [] : [{ at: x["score-diameter"] ?? x.largest, depth: x.score }];
      return answerFor(nextOversize(x.largest, x.standard, scores, x.oversizes, x.cleanup), "oversize");
    },
  }),
  computation({
    id: "next-undersize",
    title: "Next common undersize of a journal",
    inputs: {
      smallest: input.number("in", "smallest diameter found on any journal of the set", ABOVE_ZERO),
      standard: input.number("in", "standard journal, high limit", ABOVE_ZERO),
      cleanup: input.optional("in", "ground away to clean up, 0.001 in when left out", NOT_NEGATIVE),
      undersizes: {
        ...input.list("in", "steps to be had; .010 to .030 by .010 when left out", 1, 24, ABOVE_ZERO),
        optional: true as const,
      },
    },
    unit: "in",
    formula: "smallest undersize with standard - undersize <= smallest - cleanup",
    source: "TM 5-3805-262-34 (if one or more journals are to be ground, grind all); cleanup common practice, no source",
    run: (x) => answerFor(nextUndersize(x.smallest, x.standard, x.undersizes, x.cleanup), "undersize"),
  }),
  computation({
    id: "half-shell",
    title: "Half-shell growth for a journal undersize",
    inputs: { undersize: input.number("in", "journal undersize on the diameter", NOT_NEGATIVE) },
    unit: "in",
    formula: "growth = undersize / 2",
    source: `${GEOMETRY}; TM 10-3930-653-14&P lists both sizes`,
    run: (x) => ({ value: times(x.undersize, 0.5) }),
  }),
  computation({
    id: "oversize-bore",
    title: "Bore at an oversize",
    inputs: { standard: input.number("in", "standard bore", ABOVE_ZERO), oversize: input.number("in", "oversize", NOT_NEGATIVE) },
    unit: "in",
    formula: "bore = standard + oversize",
    source: COMMON_PRACTICE,
    run: (x) => ({ value: plus(x.standard, x.oversize) }),
  }),
];
