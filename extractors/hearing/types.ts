// What the ear is asked and what it answers.
import type { Context } from "../../shared/events/reading.ts";
import type { Spec } from "../../shared/spec/spec.ts";

/** `ok` counts as it was heard; `doubtful` waits for a yes or a question; `nothing` is not for the book. */
export type HeardVerdict = "ok" | "doubtful" | "nothing";

export interface Heard {
  /** Words as the parser reads them, a comma where the place ends and the value begins; empty when nothing was said. */
  readonly text: string;
  readonly seconds: number;
  readonly verdict: HeardVerdict;
  /** Calibrated probability that the sentence means what was said, 0..1. */
  readonly chance: number;
  /** The next best sentences that mean something else, best first. */
  readonly others: readonly string[];
  /** What the chance was worked out from. */
  readonly evidence: Evidence;
}

/** From one table of posteriors; natural-log units. */
export interface Evidence {
  /** Score of the sentence less that of the best one that means something else. */
  readonly lead: number;
  /** Score of the best free string of phones less that of the sentence by its sounds, a frame of speech: high where it was other talk. */
  readonly gap: number;
  /** How far the free string itself is from certain, a frame of speech: high in noise. */
  readonly haze: number;
  /** Phones of the free string. */
  readonly phones: number;
}

export interface HearOptions {
  readonly spec: Spec;
  readonly context: Context;
}

/** An ear: one interface for the worker thread of Node and the worker of the browser. */
export interface Hearer {
  /** Hear one utterance: mono samples -1..1 at `rate` a second. Rejects with `HearingError` when the engine fails. */
  hear(pcm: Float32Array, rate: number, options: HearOptions): Promise<Heard>;
  /** Make the grammar of what is open ready, so that the first sentence does not wait for it. */
  prepare(options: HearOptions): Promise<void>;
  close(): Promise<void>;
}
