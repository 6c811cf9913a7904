// A sentence is heard from its last lull on, before it is known to be over: when it ends there, what it comes to is at hand.
import type { HearOptions } from "../../extractors/hearing/index.ts";
import type { Sentence } from "./intake.ts";
import type { HeardClip, HearingClip, WorkerEar } from "./worker-ear.ts";

export interface Draft extends HearingClip {
  readonly number: number;
  /** Where the sentence ends if it ends at this lull, seconds of sound. */
  readonly end: number;
}

export class Drafts {
  readonly #ear: WorkerEar;
  #last: Draft | undefined;

  constructor(ear: WorkerEar) {
    this.#ear = ear;
  }

  /** Listen for what the beginning of a sentence names, while the rest is being said. */
  open(number: number, pcm: Float32Array, rate: number, options: HearOptions): void {
    const { heard } = this.#ear.hear(pcm, rate, { ...options, sentence: number, beginning: true });
    heard.catch(() => undefined);
  }

  /** Begin to hear a sentence, or take up what was begun at the lull where it ended. */
  begin({ number, end, pcm, rate }: Sentence, options: HearOptions, sight: (text: string) => void): Draft {
    const before = this.#last;
    if (before?.number === number && before.end === end) return before;
    before?.leave();
    const asked = performance.now();
    const { heard, leave } = this.#ear.hear(pcm, rate, { ...options, sentence: number }, sight);
    heard.then(
      (clip) => clip !== undefined && performance.measure("hear", { start: asked }),
      () => undefined,
    );
    this.#last = { number, end, heard, leave };
    return this.#last;
  }

  /** What a sentence that is over comes to. */
  async whole(sentence: Sentence, options: HearOptions, sight: (text: string) => void): Promise<HeardClip | undefined> {
    const clip = await this.begin(sentence, options, sight).heard;
    if (clip !== undefined) return clip;
    // It had been left as one that went on, by a noise.
    this.#last = undefined;
    return this.begin(sentence, options, sight).heard;
  }

  /** The sentence went on after its lull. */
  leave(number: number): void {
    if (this.#last?.number === number) this.#last.leave();
  }
}
