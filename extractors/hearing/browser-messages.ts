// What the page and the ear's browser worker say to each other.
import type { Context, Parsed } from "../../shared/events/reading.ts";
import type { Spec } from "../../shared/spec/spec.ts";
import type { Heard } from "./types.ts";

/** To the worker. All but `leave` are done one after the other. */
export type EarRequest =
  /** Load network and runtime from below `modelBase`. */
  | { readonly type: "open"; readonly modelBase: string }
  /** What is open now; grammar and parser follow it. */
  | { readonly type: "context"; readonly spec: Spec; readonly context: Context }
  /** Hear a clip; answered by `heard` or `left`, with the same `id`. */
  | { readonly type: "hear"; readonly id: number; readonly pcm: Float32Array; readonly rate: number }
  /** The sentence went on: what was asked for with this `id` is of no use any more. */
  | { readonly type: "leave"; readonly id: number };

/** From the worker. */
export type EarAnswer =
  | { readonly type: "ready" }
  | { readonly type: "heard"; readonly id: number; readonly heard: Heard; readonly parsed: Parsed }
  | { readonly type: "left"; readonly id: number }
  /** Not loaded at all, or one clip that could not be heard. */
  | { readonly type: "failed"; readonly code: "ear_not_loaded" | "ear_failed"; readonly message: string; readonly id?: number };
