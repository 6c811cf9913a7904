// Samples in, levels out: where the speech is in a clip and how far it stands above the noise.

import { resample } from "./resample.ts";

export interface Levels {
  /** Signal-to-noise ratio, dB: power of the speech frames over power of the quiet ones. */
  readonly snr: number;
  /** Noise, dB below full scale. */
  readonly noise: number;
  /** First and one past the last sample of what stands above the noise, with a margin. */
  readonly from: number;
  readonly to: number;
}

const FRAME_SECONDS = 0.02;
/**
 * Seconds kept around what stands above the noise: of a voice the model is fitted to (in the tuning voices as many come out right as
 * with more, and one in fifteen of what is decoded is saved), and of others, whose first and last words are found less surely.
 */
export const MARGIN_IF_FITTED = 0.12;
export const MARGIN = 0.2;
const QUIET_SHARE = 0.15;
const LOUD_SHARE = 0.9;
/** Digital silence is not less noise than this: the ratio would only tell how the file was made. */
const FLOOR_DB = -80;

/** Level of each whole frame of `size` samples, dB. */
export function frameLevels(samples: Float32Array | Float64Array, size: number): number[] {
  const levels: number[] = [];
  for (let at = 0; at + size <= samples.length; at += size) {
    let sum = 0;
    for (let i = at; i < at + size; i += 1) sum += (samples[i] ?? 0) ** 2;
    levels.push(10 * Math.log10(sum / size + 1e-12));
  }
  return levels;
}

/** What stands this far above the noise is no noise, dB, where the loud parts of the clip stand `snr` above it. */
export const aboveNoise = (snr: number): number => Math.max(4, snr * 0.25);

/** Measure a clip of at least one frame, `margin` in seconds. Shorter ones count as all speech. */
export function levelsOf(pcm: Float32Array, rate: number, margin = MARGIN): Levels {
  const size = Math.max(1, Math.round(rate * FRAME_SECONDS));
  const frames = frameLevels(pcm, size).map((level) => Math.max(FLOOR_DB, level));
  if (frames.length === 0) return { snr: 0, noise: FLOOR_DB, from: 0, to: pcm.length };
  const sorted = [...frames].sort((a, b) => a - b);
  const noise = sorted[Math.floor((sorted.length - 1) * QUIET_SHARE)] ?? FLOOR_DB;
  const loud = sorted[Math.floor((sorted.length - 1) * LOUD_SHARE)] ?? noise;
  const edge = noise + aboveNoise(loud - noise);
  const first = frames.findIndex((level) => level > edge);
  const last = frames.findLastIndex((level) => level > edge);
  const around = Math.round(rate * margin);
  return {
    snr: Math.round((loud - noise) * 10) / 10,
    noise: Math.round(noise * 10) / 10,
    from: first < 0 ? 0 : Math.max(0, first * size - around),
    to: last < 0 ? pcm.length : Math.min(pcm.length, (last + 1) * size + around),
  };
}

const TREBLE_RATE = 16_000;
/** Share of the sample before that is taken away: the usual pre-emphasis of speech front ends. */
const EMPHASIS = 0.97;

/**
 * Signal-to-noise ratio of a clip with its treble lifted, dB. Hum leaves it high, hiss does not: noise that the vowels stand above
 * may hide the consonants, by which "fifty" and "sixty" are told apart.
 */
export function trebleSnr(pcm: Float32Array, rate: number): number {
  const sound = rate === TREBLE_RATE ? pcm : resample(pcm, rate, TREBLE_RATE);
  const lifted = new Float32Array(sound.length);
  for (let at = 0; at < sound.length; at += 1) lifted[at] = (sound[at] ?? 0) - EMPHASIS * (sound[at - 1] ?? 0);
  return levelsOf(lifted, TREBLE_RATE).snr;
}
