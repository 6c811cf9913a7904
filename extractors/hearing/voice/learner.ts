// Sentences that were heard without doubt in, and when there are enough of them, what the model's Gaussians heard of the voice out.
import { type KnownWords, type Listener, listenTo } from "./listen.ts";
import { VoiceStatistics } from "./statistics.ts";

/** Sentences after which the model is fitted for the first time; then whenever there are twice as many, or this many more. */
const FIRST_FIT = 3;
/** No more are held: an ear that is never asked to learn must not hold the sound of all it hears. */
const MOST_WAITING = 24;

export class VoiceLearner {
  readonly #statistics: VoiceStatistics;
  readonly #waiting: KnownWords[] = [];
  #heard = 0;
  #learnt = 0;
  #due = FIRST_FIT;

  /** @param known what a calibration heard of the voice */
  constructor(known: VoiceStatistics = new VoiceStatistics()) {
    this.#statistics = known;
  }

  add(sentence: KnownWords): void {
    this.#waiting.push(sentence);
    if (this.#waiting.length > MOST_WAITING) this.#waiting.shift();
    this.#heard += 1;
  }

  /** Sentences that were learnt from. */
  get learnt(): number {
    return this.#learnt;
  }

  /** Whether enough was heard to fit the model again. */
  get isDue(): boolean {
    return this.#heard >= this.#due;
  }

  /** Have what is waiting listened to, step by step. */
  *learn(listener: Listener): Generator<undefined, VoiceStatistics> {
    this.#due = this.#heard + Math.min(this.#heard, MOST_WAITING);
    const batch = this.#waiting.splice(0);
    this.#learnt += batch.length;
    yield* listenTo(batch, this.#statistics, listener);
    return this.#statistics;
  }
}
