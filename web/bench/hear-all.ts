// Hears a sentence against everything that can be said first, and only then against what is open: an ear that listens for the
// open step alone makes a figure of that step out of a sentence about another.
import { type HearOptions, understand } from "../../extractors/hearing/index.ts";
import type { HeardClip, WorkerEar } from "./worker-ear.ts";

/** The same options with nothing open: place and last reading stay, so that corrections and short places are understood. */
export function wide(options: HearOptions): HearOptions {
  const { quantity: _quantity, step: _step, ...context } = options.context;
  return { ...options, context };
}

/** Whether something is open that a bare value could belong to. */
const isFocused = ({ context }: HearOptions) => context.quantity !== undefined || context.step !== undefined;

/** A whole sentence counts as heard among all others; a bare value ("fourteen thou") is then looked for in what is open. */
export async function hearAll(
  ear: Pick<WorkerEar, "hear">,
  pcm: Float32Array,
  rate: number,
  options: HearOptions,
): Promise<HeardClip> {
  const { heard } = await ear.hear(pcm, rate, wide(options));
  const first = { heard, parsed: understand(heard, options.context, options.spec) };
  const sure = options.quick === true ? heard.text !== "" : heard.verdict === "ok";
  if (sure || heard.verdict === "too_loud" || !isFocused(options)) return first;
  const second = await ear.hear(pcm, rate, options);
  return second.heard.verdict === "ok" || heard.verdict === "nothing" ? second : first;
}
