// What the ear is asked and what it answers.
import type { Context } from "../../shared/events/reading.ts";
import type { Spec } from "../../shared/spec/spec.ts";

export interface HeardWord {
  readonly word: string;
  /** Seconds from the clip's start. */
  readonly start: number;
  readonly end: number;
  /** How sure the ear is that it is this word and no other of the grammar: 0 not at all, 1 wholly. */
  readonly trust: number;
}

/** What speaks against the words as heard. */
export interface Doubt {
  /** Indexes of the words that other decodes heard otherwise. */
  readonly words: readonly number[];
  /** What else was heard, most often first. */
  readonly others: readonly string[];
  /** Share of decodes that heard exactly these words, 0..1. */
  readonly agreement: number;
  /** Cost a second above that of any speech at all, natural-log units; high means it was other talk or noise. */
  readonly strangeness: number;
}

/**
 * `ok` counts as it was heard; `doubtful` waits for a yes or a question; `too_loud` and `nothing` give no words to act on.
 */
export type HeardVerdict = "ok" | "doubtful" | "too_loud" | "nothing";

export interface Heard {
  /** Words as the parser reads them, a comma where the place ends and the value begins; empty when nothing was said. */
  readonly text: string;
  readonly seconds: number;
  readonly words: readonly HeardWord[];
  readonly doubt: Doubt;
  /** Signal-to-noise ratio, dB. */
  readonly snr: number;
  readonly verdict: HeardVerdict;
  /** Frequency scale the words were heard best at. */
  readonly warp: number;
}

/** What is known of how one person sounds. */
export interface Speaker {
  readonly format: "thoubook-speaker/1";
  readonly name: string;
  /** Factor on the frequency axis: below 1 for a voice higher than the acoustic model's average. */
  readonly warp: number;
  /** Noise of the room where it was fitted, dB below full scale. */
  readonly noise?: number;
  /** Phrases heard right of those read aloud; both 0 for a voice that was only learnt at work. */
  readonly right: number;
  readonly phrases: number;
  /** Sentences of work that the voice was learnt from besides. */
  readonly sentences?: number;
  /** What the model's sounds are like in this voice, as voice/kept.ts writes it; without it the model is left as it is. */
  readonly voice?: string;
}

/** What one session has learnt of a voice, beside what its profile had. */
export interface LearntVoice {
  /** Frequency scale, where no profile gave one and enough was heard. */
  readonly warp: number | undefined;
  /** What the model's sounds are like, the profile's share included. */
  readonly voice: string;
  /** Sentences of this session that it was learnt from. */
  readonly sentences: number;
}

/** A voice that is being fitted. */
export type KnownVoice = Pick<Speaker, "name" | "warp" | "voice">;

export interface HearOptions {
  readonly spec: Spec;
  readonly context: Context;
  readonly speaker?: Speaker;
  /** Number of a sentence that is heard again as it grows: what its beginning named is kept from one time to the next. */
  readonly sentence?: number;
  /** The clip is a beginning: listen for what it names, and no further. */
  readonly beginning?: boolean;
}

/** A phrase read aloud whose words are known. */
export interface KnownPhrase {
  readonly pcm: Float32Array;
  readonly rate: number;
  readonly text: string;
}

/** An ear: one interface for the worker thread of Node and the worker of the browser. */
export interface Hearer {
  /** Hear one utterance: mono samples -1..1 at `rate` a second. Rejects with `HearingError` when the engine fails. */
  hear(pcm: Float32Array, rate: number, options: HearOptions): Promise<Heard>;
  /** Make the grammars of what is open ready, so that the first sentence does not wait for them. */
  prepare(options: HearOptions): Promise<void>;
  /** Fit a speaker from known phrases read aloud (see calibrate.ts). */
  calibrate(name: string, phrases: readonly KnownPhrase[], spec: Spec): Promise<Speaker>;
  close(): Promise<void>;
}
