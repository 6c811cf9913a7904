// Phrases whose words are known in, what the model's Gaussians heard of the voice out; a step for each time a clip is heard.
import { mixAt, pinkNoise, seeded } from "../audio/noise.ts";
import { heardAt, onScale } from "../audio/sound.ts";
import type { Decoder, SoundState } from "../engine/decoder.ts";
import type { Mixtures } from "../engine/gaussians.ts";
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

/**
 * Noise that is put under each clip besides, decibels below it: a voice that was learnt in a quiet room must be known beside a
 * compressor too. On tuning voices in pink noise at 10 dB this took the right sentences from 51 to 71 in a hundred, and the clean
 * ones from 80 to 85.
 */
const NOISES_DB = [20, 10] as const;

/** The same sound with noise under it, once a level. */
const amidNoise = (sound: Float32Array): readonly Float32Array[] =>
  NOISES_DB.map((decibels) => mixAt(sound, pinkNoise(sound.length, seeded(decibels)), decibels));

/** Who listens: a decoder, its model's Gaussians with the means that it has, and its front end's setting. */
export interface Listener {
  readonly decoder: Decoder;
  readonly mixtures: Mixtures;
  readonly lifter: number;
}

/** Where states lie in the same clip on a scale `factor` times as high: it is as much shorter. */
const statesAt = (states: readonly SoundState[], factor: number): readonly SoundState[] =>
  states.map((state) => ({ ...state, from: Math.round(state.from / factor), to: Math.round(state.to / factor) }));

/** Add clips to `statistics`; those that do not fit their words at all are left out. The decoder's grammar is another afterwards. */
export function* listenTo(
  clips: readonly KnownWords[],
  statistics: VoiceStatistics,
  { decoder, mixtures, lifter }: Listener,
): Generator<undefined, void> {
  for (const clip of clips) {
    const states = decoder.align(heardAt(onScale(clip, clip.warp), 0), clip.words);
    yield undefined;
    for (const factor of states.length > 0 ? AROUND : []) {
      const sound = heardAt(onScale(clip, clip.warp * factor), 0);
      const [clean, ...noisy] = [sound, ...amidNoise(sound)].map((heard) => featuresOf(decoder.spectrum(heard), lifter));
      if (clean !== undefined) statistics.add(clean, statesAt(states, factor), mixtures, noisy);
      yield undefined;
    }
  }
}
