// Phrases whose words are known in, what the model's Gaussians heard of the voice out; a step for each time a clip is heard.
import { soundOf } from "../audio/sound.ts";
import type { Decoder } from "../engine/decoder.ts";
import type { Gaussians } from "../engine/gaussians.ts";
import { featuresOf } from "./features.ts";
import type { VoiceStatistics } from "./statistics.ts";

/** A clip without the silence around it, the voice's frequency scale, and the clip's words as the dictionary has them. */
export interface KnownWords {
  readonly pcm: Float32Array;
  readonly rate: number;
  readonly warp: number;
  readonly words: string;
}

/** Scales at which each clip is heard, around the voice's: what is heard later is checked at others than its own too. */
const AROUND = [0.97, 1, 1.03] as const;

/** Add clips to `statistics`; those that do not fit their words at all are left out. The decoder's grammar is another afterwards. */
export function* listenTo(
  clips: readonly KnownWords[],
  statistics: VoiceStatistics,
  decoder: Decoder,
  gaussians: Gaussians,
  lifter: number,
): Generator<undefined, void> {
  for (const clip of clips)
    for (const factor of AROUND) {
      const sound = soundOf(clip, clip.warp * factor, 0);
      const states = decoder.align(sound, clip.words);
      if (states.length > 0) statistics.add(featuresOf(decoder.spectrum(sound), lifter), states, gaussians);
      yield undefined;
    }
}
