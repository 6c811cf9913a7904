// Bores, pistons and rings.

import { inch, minus, plus } from "../../compute/measure.ts";
import { BORE_CLEANUP, nextOversize } from "../../compute/size-steps.ts";
import { suits } from "../../spec/engine.ts";
import { lengthIn } from "../../spec/sizes.ts";
import type { Condition } from "../../spec/spec.ts";
import type { RuleContext } from "../context.ts";
import { boreOf, inLatestCondition, nominal, upTo, valueIn, within } from "../figures/pick.ts";
import { gapSwing } from "../figures/rings.ts";
import { number, roundUp, sizeStep, figure as text } from "../text.ts";
import type { Remedy, RemedyRow, Trouble } from "./types.ts";

const WORDS = ["no", "the one bore", "both", "all three", "all four", "all five", "all six"];

/** Largest diameters and scores of every cylinder decide one oversize for the whole block. */
export function boreDecision(context: RuleContext, condition?: Condition) {
  return context.once(`bore decision ${condition ?? ""}`, () => decide(context, condition));
}

function decide(context: RuleContext, condition?: Condition) {
  const standard = nominal(context.spec, "bore");
  if (standard === undefined) return undefined;
  const cylinders = upTo(context.spec.engine.cylinders);
  const found = cylinders.flatMap((cylinder) =>
    condition === undefined
      ? inLatestCondition(context, "bore_diameter", { cylinder })
      : within(context, "bore_diameter", { cylinder }, condition),
  );
  if (found.length === 0) return undefined;
  const largest = inch(Math.max(...found.map((logged) => valueIn(logged, "in"))));
  const scores = cylinders.flatMap((cylinder) =>
    within(context, "score_depth", { cylinder }).map((score) => {
      const local = found.filter(
        ({ reading: { place } }) =>
          place.cylinder === cylinder && (score.reading.place.depth === undefined || place.depth === score.reading.place.depth),
      );
      const at = Math.max(...(local.length > 0 ? local.map((logged) => valueIn(logged, "in")) : [largest]));
      return { at: inch(at), depth: inch(valueIn(score, "in")) };
    }),
  );
  const steps = context.spec.oversizes.map((step) => inch(lengthIn(step, context.spec)));
  return { largest, scores, ...nextOversize(largest, inch(standard), scores, steps.length > 0 ? steps : undefined) };
}

/** A finished bore that is out by less than honing takes off is not bored again for it (common practice, no source). */
const honeTrue: Remedy = ({ value, accept, figure, context }) => {
  if (accept.high === undefined || minus(value, accept.high) >= BORE_CLEANUP) return undefined;
  const how = figure.id === "bore_taper" ? "straight: longer strokes in the tight part" : "round";
  const held = suits(context.spec.engine, ["barrels"])
    ? "between torque plates, as the through-bolts hold it"
    : `torque plate (or head and gasket) tightened on${suits(context.spec.engine, ["main_caps"]) ? " and main caps in" : ""}`;
  return `Hone it ${how}, ${held}, cool: it is ${text(minus(value, accept.high), "in")} over. Where it was read without the plate, fit the plate and read it again first.`;
};

const rebore: Remedy = (trouble) => {
  const { context, condition } = trouble;
  const honed = condition === "final" ? honeTrue(trouble) : undefined;
  if (honed !== undefined) return honed;
  const decision = boreDecision(context, condition);
  if (decision === undefined) return undefined;
  const many = WORDS[context.spec.engine.cylinders] ?? `all ${context.spec.engine.cylinders}`;
  const score = decision.scores.length > 0 ? " and the scores" : "";
  const why = `the largest reading, ${number(decision.largest, "in")}${score} need ${number(decision.needed, "in")} to clean up`;
  if (decision.step === undefined || decision.size === undefined) {
    return `Sleeve, or find a larger piston: ${why}, past the largest oversize of the sheet.`;
  }
  return `Bore ${many} to +${sizeStep(decision.step)} (${number(decision.size, "in")}): ${why}. Have the pistons in hand first.`;
};

/** How much the piston's clearance changes between the smallest and the largest bore of a cylinder. */
const boreSpread = ({ place, context }: Trouble): number => {
  const bore = place.cylinder === undefined ? undefined : boreOf(context, place.cylinder);
  return bore === undefined ? 0 : minus(bore.largest, bore.smallest);
};

/** Said instead of a fit that would be wrong at the other end of the bore. */
const trueFirst = (trouble: Trouble, change: number): string | undefined => {
  const { low, high } = trouble.accept;
  if (low === undefined || high === undefined || change <= minus(high, low)) return undefined;
  return `Bore or hone the cylinder true first: it differs by ${text(boreSpread(trouble), "in")} from end to end, and nothing fits both.`;
};

const fileRing: Remedy = (trouble) => {
  const { value, accept, place, context } = trouble;
  if (accept.low === undefined) return undefined;
  const read = context.latest("ring_end_gap", place);
  const where = read === undefined || valueIn(read, "in") === value ? "" : " where the bore is smallest";
  return (
    trueFirst(trouble, gapSwing(trouble.context, trouble.place.cylinder ?? 0)) ??
    `File the ring ends by ${text(roundUp(minus(accept.low, value)), "in")} or a little more, to ${text(roundUp(accept.low), "in")} at least${where}.`
  );
};

const newRing: Remedy = (trouble) => {
  const { value, accept } = trouble;
  if (accept.high === undefined) return undefined;
  return (
    trueFirst(trouble, gapSwing(trouble.context, trouble.place.cylinder ?? 0)) ??
    `Check that it is the right ring for this bore; it is ${text(minus(value, accept.high), "in")} over, fit another.`
  );
};

/** Pistons that would fit the bore as it is, at its smallest and at its largest. */
const otherPiston: Remedy = (trouble) => {
  const { value, accept, place, context } = trouble;
  const skirt = place.cylinder === undefined ? undefined : context.latest("piston_skirt_diameter", { cylinder: place.cylinder });
  if (skirt === undefined || accept.low === undefined || accept.high === undefined) return undefined;
  const first = trueFirst(trouble, boreSpread(trouble));
  if (first !== undefined) return first;
  const bore = place.cylinder === undefined ? undefined : boreOf(context, place.cylinder);
  const here = plus(valueIn(skirt, "in"), value);
  const [smallest, largest] = bore === undefined || bore.nominal ? [here, here] : [bore.smallest, bore.largest];
  const [small, big] = [minus(largest, accept.high), minus(smallest, accept.low)];
  return `Fit a piston of ${number(small, "in")} to ${text(big, "in")} here, or swap with another cylinder.`;
};

const honeMore: Remedy = (trouble) => {
  const { value, accept } = trouble;
  if (accept.low === undefined) return undefined;
  const first = trueFirst(trouble, boreSpread(trouble));
  if (first !== undefined) return first;
  return `Hone ${text(minus(accept.low, value), "in")} more out of the bore, cool. Or: ${otherPiston(trouble) ?? "fit a smaller piston."}`;
};

const widerRing: Remedy = ({ value, accept }) =>
  accept.high === undefined
    ? undefined
    : `Fit a ring at least ${text(minus(value, accept.high), "in")} wider, or true the groove and fit an oversize-width ring.`;

export const BORE_REMEDIES: Readonly<Record<string, RemedyRow>> = {
  bore_out_of_round: { high: rebore },
  bore_taper: { high: rebore },
  bore_wear: { high: rebore },
  ring_end_gap: { low: fileRing, high: newRing },
  piston_clearance: { low: honeMore, high: otherPiston },
  ring_side_clearance: { high: widerRing },
};
