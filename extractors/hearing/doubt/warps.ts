// Which frequency scales to try next: a known speaker's first, else those that were cheapest so far, else both sides of the middle.
import { heardPasses, type Pass } from "./vote.ts";

/** Scales worth trying for a voice nobody has fitted: below 1 for voices higher than the model's average. */
export const WARPS = [0.88, 0.92, 0.96, 1.0, 1.05, 1.1] as const;
const FIRST = [0.94, 1.03];
const SIDE_STEP = 0.05;
const MEMORY = 0.8;
const FITTED_STEP = 0.035;

/** What one session has learnt of the voice at hand: mean extra cost by scale. */
export class WarpMemory {
  #mean: number | undefined;
  #heard = 0;

  /** Scales to begin with. */
  first(speaker: number | undefined): readonly number[] {
    const known = speaker ?? (this.#heard >= 2 ? this.#mean : undefined);
    return known === undefined ? FIRST : [known - FITTED_STEP, known + FITTED_STEP];
  }

  /** Remember the scale at which an utterance that counts was heard best. */
  learn(warp: number): void {
    this.#heard += 1;
    this.#mean = this.#mean === undefined ? warp : this.#mean * MEMORY + warp * (1 - MEMORY);
  }

  forget(): void {
    this.#mean = undefined;
    this.#heard = 0;
  }
}

/** The next scale to try after `passes`: one step further on the cheaper side, then between the two cheapest. */
export function nextWarp(passes: readonly Pass[]): number {
  const [best, second] = heardPasses(passes);
  if (best === undefined) return 1.1;
  const tried = passes.map((pass) => pass.warp);
  const lowest = Math.min(...tried);
  const highest = Math.max(...tried);
  if (best.warp === lowest && lowest > 0.87) return lowest - SIDE_STEP;
  if (best.warp === highest && highest < 1.12) return highest + SIDE_STEP;
  return (best.warp + (second?.warp ?? best.warp * 0.98)) / 2;
}
