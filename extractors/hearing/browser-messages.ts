// What the page and the ear's browser worker say to each other.
import type { Context, Parsed } from "../../shared/events/reading.ts";
import type { Spec } from "../../shared/spec/spec.ts";
import type { Heard, KnownPhrase, Speaker } from "./types.ts";

/** To the worker. */
export type EarRequest =
  /** Load engine and model; `modelBase` is the URL below which `en-us/mdef` and its neighbours are served. */
  | { readonly type: "open"; readonly modelBase: string }
  /** What is open now; grammar and parser follow it. */
  | { readonly type: "context"; readonly spec: Spec; readonly context: Context; readonly speaker?: Speaker }
  /** Frames of the microphone come through this port. */
  | { readonly type: "frames"; readonly port: MessagePort }
  /** A frame sent by the page itself instead. */
  | { readonly type: "frame"; readonly pcm: Float32Array; readonly rate: number }
  /** While the loudspeaker speaks, nothing is listened to. */
  | { readonly type: "listen"; readonly on: boolean }
  /** Hear a whole clip; answered with the same `id`. */
  | { readonly type: "hear"; readonly id: number; readonly pcm: Float32Array; readonly rate: number; readonly quick?: boolean }
  /** Fit a speaker from known phrases; answered with the same `id`. */
  | { readonly type: "calibrate"; readonly id: number; readonly name: string; readonly phrases: readonly KnownPhrase[] };

/** From the worker. */
export type EarAnswer =
  | { readonly type: "ready"; readonly milliseconds: number }
  /** Speech has started: time for the short sound. */
  | { readonly type: "speech" }
  /** Level of the microphone and of the room, dB below full scale, five times a second. */
  | { readonly type: "level"; readonly level: number; readonly floor: number }
  | {
      readonly type: "heard";
      /** Of the `hear` request; absent for what the microphone brought. */
      readonly id?: number;
      readonly heard: Heard;
      readonly parsed: Parsed;
      /** The utterance's own samples, to be kept. */
      readonly pcm: Float32Array;
      readonly rate: number;
      /** Milliseconds from the end of speech to this message; 0 for a clip. */
      readonly lag: number;
    }
  | { readonly type: "calibrated"; readonly id: number; readonly speaker: Speaker }
  | { readonly type: "failed"; readonly code: "ear_not_loaded" | "ear_failed"; readonly message: string };
