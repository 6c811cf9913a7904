// Which frequency scales to listen at: a known speaker's, else what this session has learnt of the voice, else the middle.
import { costOf, heardPasses, type Pass } from "./vote.ts";

/** Between a high and a low voice, a little on the high side: voices lower than the model's average are heard well there too. */
export const MIDDLE = 0.97;
/** Where a voice is looked for that nothing is known of. */
export const UNKNOWN: readonly number[] = [0.94, 1.04];
const MEMORY = 0.7;
const LEARNT_LOWEST = 0.9;
const LEARNT_HIGHEST = 1.03;
const LOWEST = 0.88;
const HIGHEST = 1.1;
/** How far from the first look the checks are made, in turn: near enough to hear the same, far enough to fail alone. */
const CHECK_STEPS = [-0.04, 0.04, -0.08, 0.08, 0.02] as const;
/** How far the next look at a sentence that fits nowhere goes. */
const LOOK_STEP = 0.07;

const within = (warp: number) => Math.min(HIGHEST, Math.max(LOWEST, warp));

const average = (mean: number | undefined, value: number) => (mean === undefined ? value : mean * MEMORY + value * (1 - MEMORY));

/** What one session has learnt of the voice at hand. */
export class VoiceMemory {
  #mean: number | undefined;
  #heard = 0;
  #fit: number | undefined;
  #fitted = 0;

  /** How strange this voice's sentences usually are to the model; undefined until a few were heard. */
  get usual(): number | undefined {
    return this.#fitted >= 3 ? this.#fit : undefined;
  }

  /** Remember how strange a sentence was that every pass heard alike. */
  learnFit(strangeness: number): void {
    this.#fitted += 1;
    this.#fit = average(this.#fit, strangeness);
  }

  /** The voice's scale, as fitted to the speaker or else learnt; undefined until a few sentences counted. */
  warp(speaker: number | undefined): number | undefined {
    return speaker ?? (this.#heard >= 2 ? this.#mean : undefined);
  }

  /** Remember the scale at which an utterance that counts was heard best. */
  learn(warp: number): void {
    this.#heard += 1;
    // Faster and faster play costs less and less, past the scale at which a low voice is heard best.
    this.#mean = Math.min(LEARNT_HIGHEST, Math.max(LEARNT_LOWEST, average(this.#mean, warp)));
  }

  /** The model fits the voice otherwise now: how strange it usually is must be learnt again. */
  forgetFit(): void {
    this.#fit = undefined;
    this.#fitted = 0;
  }

  forget(): void {
    this.#mean = undefined;
    this.#heard = 0;
    this.forgetFit();
  }
}

/** Scale of check number `turn`, around the scale `from`. */
export const checkWarp = (from: number, turn: number): number => within(from + (CHECK_STEPS[turn % CHECK_STEPS.length] ?? 0));

/** Where to look again after `passes` that fit badly: further out on the cheaper side. */
export function nextLook(passes: readonly Pass[]): number {
  const [best] = heardPasses(passes);
  const tried = passes.map((pass) => pass.warp);
  if (best === undefined) return within(Math.max(...tried) + LOOK_STEP);
  const lower = passes.find((pass) => pass.warp < best.warp);
  const higher = passes.find((pass) => pass.warp > best.warp);
  if (lower === undefined) return within(best.warp - LOOK_STEP);
  if (higher === undefined) return within(best.warp + LOOK_STEP);
  return (best.warp + (costOf(lower) < costOf(higher) ? lower.warp : higher.warp)) / 2;
}
