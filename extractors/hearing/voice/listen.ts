// Phrases whose words are known in, what the model's Gaussians heard of the voice out.
import type { Decoder } from "../engine/decoder.ts";
import type { Gaussians } from "../engine/gaussians.ts";
import { featuresOf } from "./features.ts";
import type { VoiceStatistics } from "./statistics.ts";

/** A clip at the engine's rate and the voice's scale, and its words as the dictionary has them. */
export interface KnownWords {
  readonly pcm: Float32Array;
  readonly words: string;
}

/** Add clips to `statistics`; those that do not fit their words at all are left out. The decoder's grammar is another afterwards. */
export function listenTo(
  clips: readonly KnownWords[],
  statistics: VoiceStatistics,
  decoder: Decoder,
  gaussians: Gaussians,
  lifter: number,
): void {
  for (const { pcm, words } of clips) {
    const states = decoder.align(pcm, words);
    if (states.length > 0) statistics.add(featuresOf(decoder.spectrum(pcm), lifter), states, gaussians);
  }
}
