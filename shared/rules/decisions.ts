// The two decisions of the job with their reasons: to which oversize the block is bored, to which undersize the crank is ground.

import type { Build } from "../build/build.ts";
import { type Inch, inch, minus } from "../compute/measure.ts";
import { type NextSize, nextUndersize } from "../compute/size-steps.ts";
import { lengthIn } from "../spec/sizes.ts";
import type { Condition } from "../spec/spec.ts";
import { RuleContext } from "./context.ts";
import { nominal, upTo, valueIn } from "./figures/pick.ts";
import { boreDecision } from "./remedies/bores.ts";
import { number, saidFor, sizeStep } from "./text.ts";

export interface SizeDecision extends NextSize {
  /** The reading that decides. */
  readonly worst: Inch;
  readonly standard: Inch;
  /** One sentence with the figures. */
  readonly why: string;
  /** The readings behind it. */
  readonly evidence: readonly string[];
}

const past = "past the last step of the sheet: sleeve, build up or renew";

/** The oversize that cleans up every bore and score as found; undefined while no bore has been read. Sizes are inches. */
export const decideBore = (build: Build, context: RuleContext = new RuleContext(build)): SizeDecision | undefined =>
  saidFor(build.spec, () => boreSize(build, context));

function boreSize(build: Build, context: RuleContext): SizeDecision | undefined {
  const found = context.within("bore_diameter", {}, "as_found");
  const decision = boreDecision(context, found.length > 0 ? "as_found" : undefined);
  const standard = nominal(build.spec, "bore");
  if (decision === undefined || standard === undefined) return undefined;
  const scores = decision.scores.map((score) => `a score ${number(score.depth, "in")} deep at ${number(score.at, "in")}`);
  const what = [`largest reading ${number(decision.largest, "in")}`, ...scores].join(", ");
  const to = decision.step === undefined ? past : `+${sizeStep(decision.step)} makes ${number(decision.size ?? 0, "in")}`;
  return {
    needed: decision.needed,
    step: decision.step,
    size: decision.size,
    worst: decision.largest,
    standard: inch(standard),
    why: `${what}: needs ${number(decision.needed, "in")} to clean up; ${to}. All cylinders to one size.`,
    evidence: found.flatMap((logged) => logged.evidence),
  };
}

/** The undersize that cleans up every journal of a kind; undefined while none has been read. Sizes are inches. */
export const decideGrind = (
  build: Build,
  kind: "mains" | "crankpins",
  context: RuleContext = new RuleContext(build),
  condition?: Condition,
): SizeDecision | undefined => saidFor(build.spec, () => grindSize(build, kind, context, condition));

function grindSize(
  build: Build,
  kind: "mains" | "crankpins",
  context: RuleContext,
  condition: Condition | undefined,
): SizeDecision | undefined {
  const mains = kind === "mains";
  const standard = nominal(build.spec, mains ? "main_journal" : "crankpin");
  const places = upTo(mains ? build.spec.engine.mains : build.spec.engine.cylinders).map((n) =>
    mains ? { main: n } : { rod: n },
  );
  const sizes = places.flatMap((place) => {
    const oval = Math.max(0, ...context.within("journal_out_of_round", place).map((logged) => valueIn(logged, "in")));
    // A single size with its out-of-round was read across the large way, so the small way is that much less; where the journal was
    // read both ways round, its small way is among the sizes already.
    const read = context.within(mains ? "main_journal_diameter" : "crankpin_diameter", place, condition);
    const bothWays = new Set(read.flatMap(({ reading }) => reading.place.angle ?? [])).size > 1;
    return read.map((logged) => ({ size: minus(inch(valueIn(logged, "in")), inch(bothWays ? 0 : oval)), logged }));
  });
  const worst = sizes.sort((a, b) => a.size - b.size)[0];
  if (standard === undefined || worst === undefined) return undefined;
  const steps = build.spec.undersizes.map((step) => inch(lengthIn(step, build.spec)));
  const next = nextUndersize(worst.size, inch(standard), steps.length > 0 ? steps : undefined);
  const to = next.step === undefined ? past : `${sizeStep(next.step)} under makes ${number(next.size ?? 0, "in")}`;
  return {
    ...next,
    worst: worst.size,
    standard: inch(standard),
    why: `Smallest ${mains ? "main" : "crankpin"} ${number(worst.size, "in")}: must come to ${number(next.needed, "in")} or less to clean up; ${to}. The whole set to one size.`,
    evidence: sizes.flatMap(({ logged }) => logged.evidence),
  };
}
