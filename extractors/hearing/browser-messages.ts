// What the page and the ear's browser worker say to each other.
import type { Context, Parsed } from "../../shared/events/reading.ts";
import type { Spec } from "../../shared/spec/spec.ts";
import type { Heard, HearOptions, KnownPhrase, LearntVoice, Speaker } from "./types.ts";

/** How a clip belongs to a sentence that may not be over. */
type Growing = Pick<HearOptions, "sentence" | "beginning">;

/** To the worker. All but `leave` are done one after the other. */
export type EarRequest =
  /** Load engine and model; `modelBase` is the URL below which `en-us/mdef` and its neighbours are served. */
  | { readonly type: "open"; readonly modelBase: string }
  /** What is open now; grammar and parser follow it. */
  | { readonly type: "context"; readonly spec: Spec; readonly context: Context }
  /** Who is listened to from the next context on; nobody in particular without a profile. */
  | { readonly type: "speaker"; readonly speaker: Speaker | undefined }
  /** Hear a whole clip; answered by `sighted`, once or twice or not at all, and by `heard` or `left`, with the same `id`. */
  | {
      readonly type: "hear";
      readonly id: number;
      readonly pcm: Float32Array;
      readonly rate: number;
      readonly growing: Growing;
    }
  /** The sentence went on: what was asked for with this `id` is of no use any more. */
  | { readonly type: "leave"; readonly id: number }
  /** The doubtful sentence of this number was confirmed by hand: its words can be learnt from. */
  | { readonly type: "confirmed"; readonly sentence: number }
  /** Fit a speaker from known phrases; answered with the same `id`. */
  | { readonly type: "calibrate"; readonly id: number; readonly name: string; readonly phrases: readonly KnownPhrase[] };

/** From the worker. */
export type EarAnswer =
  | { readonly type: "ready" }
  /** First sight of a clip: the words of one decode, to be shown and never logged. */
  | { readonly type: "sighted"; readonly id: number; readonly text: string }
  | { readonly type: "heard"; readonly id: number; readonly heard: Heard; readonly parsed: Parsed }
  | { readonly type: "left"; readonly id: number }
  | { readonly type: "calibrated"; readonly id: number; readonly speaker: Speaker }
  /** The ear has learnt more of the voice it listens to; for the profile. */
  | { readonly type: "learnt"; readonly learnt: LearntVoice }
  | { readonly type: "failed"; readonly code: "ear_not_loaded" | "ear_failed"; readonly message: string };
