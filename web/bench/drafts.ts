// A sentence is heard while it is being said, to be shown, and from each lull on, before it is known to be over: when it ends there,
// what it comes to is at hand.
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
  #growing: HearingClip | undefined;

  constructor(ear: WorkerEar) {
    this.#ear = ear;
  }

  /** Hear the part of a sentence that was said up to now; undefined while an earlier part is still being heard. */
  async growing(pcm: Float32Array, rate: number, options: HearOptions): Promise<HeardClip | undefined> {
    if (this.#growing !== undefined) return undefined;
    this.#growing = this.#ear.hear(pcm, rate, options);
    try {
      return await this.#growing.heard;
    } finally {
      this.#growing = undefined;
    }
  }

  /** Begin to hear a sentence, or take up what was begun at the lull where it ended. */
  begin({ number, end, pcm, rate }: Sentence, options: HearOptions): Draft {
    const before = this.#last;
    if (before?.number === number && before.end === end) return before;
    before?.leave();
    this.#growing?.leave();
    const asked = performance.now();
    const { heard, leave } = this.#ear.hear(pcm, rate, options);
    heard.then(
      (clip) => clip !== undefined && performance.measure("hear", { start: asked }),
      () => undefined,
    );
    this.#last = { number, end, heard, leave };
    return this.#last;
  }

  /** What a sentence that is over comes to. */
  async whole(sentence: Sentence, options: HearOptions): Promise<HeardClip | undefined> {
    const clip = await this.begin(sentence, options).heard;
    if (clip !== undefined) return clip;
    // It had been left as one that went on, by a noise.
    this.#last = undefined;
    return this.begin(sentence, options).heard;
  }

  /** The sentence went on after its lull. */
  leave(number: number): void {
    if (this.#last?.number === number) this.#last.leave();
  }
}
