// Evidence in, the chance that the sentence means what was said out, and what is done with it.
import { WEIGHTS } from "./model/weights.ts";
import type { Evidence, HeardVerdict } from "./types.ts";

/** What the chance is worked out from, each about 0 to 1; the order is that of the fitted weights. */
export const featuresOf = ({ lead, gap, haze, phones }: Evidence): readonly number[] => [
  1,
  Math.min(lead, 1.5) / 1.5,
  Math.min(Math.max(0, lead - 1.5), 4) / 4,
  Math.min(Math.max(0, lead - 5.5), 6) / 6,
  Math.min(gap, 0.3) / 0.3,
  Math.min(Math.max(0, gap - 0.3), 1.2) / 0.5,
  Math.min(haze, 0.6) / 0.3,
  Math.min(phones, 12) / 12,
];

export const logistic = (weights: readonly number[], features: readonly number[]): number =>
  1 / (1 + Math.exp(-features.reduce((sum, feature, index) => sum + feature * (weights[index] ?? 0), 0)));

/** Probability, fitted to clips kept apart from training (training/doubt.ts writes the weights). */
export const chanceOf = (evidence: Evidence): number => logistic(WEIGHTS, featuresOf(evidence));

/**
 * What mistakes cost, in questions. A figure that is wrong in the book costs a hundred; but each is said back at once, and one in four is
 * taken to pass all the same (our assumption, no source). A sentence passed over, which has to be said again with nobody asking, costs twenty.
 */
const WRONG = 100 * 0.25;
const PASSED_OVER = 20;

/** The cheapest in the mean: to take it, to ask, or to pass it over. */
export function verdictOf(chance: number): HeardVerdict {
  if ((1 - chance) * WRONG < 1) return "ok";
  return chance * PASSED_OVER < 1 ? "nothing" : "doubtful";
}
