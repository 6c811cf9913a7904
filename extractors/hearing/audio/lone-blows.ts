// A clip in, the same without the blows that stand alone in it out: a hammer's blow before a sentence or in a pause of it is no part of
// it, but it shifts what the recogniser takes for the clip's average: after one blow "two thou" was heard as "two tenths".
import { BETWEEN_WORDS, type Blow, blowsIn } from "./blows.ts";
import { aboveNoise, frameLevels, type Levels } from "./level.ts";

/**
 * By the limits below none stood alone in 855 clips of tuning voices in a quiet room nor in 566 recordings of people, and in hum at 10 dB
 * two or three did, none longer than 0.1 s ("s", mostly); with hammering under them at 10 dB 208 of 285 clips had some.
 */
const FRAME_SECONDS = 0.01;
/** A blow is loudest where it begins; a word is later. */
const PEAK_SECONDS = 0.03;
/** Quiet before it and after it: a final "t" comes sooner after its vowel. */
const ALONE_SECONDS = 0.06;
/** It begins with the blow. */
const BEGINS_WITHIN_SECONDS = 0.02;
/** It dies away at least so fast, dB a second; a vowel holds. */
const DECAY = 80;

/** A stretch of frames that stand above the noise. */
interface Run {
  readonly from: number;
  readonly to: number;
}

/** Runs closer than `apart` frames to each other are one. */
function runsAbove(levels: readonly number[], edge: number, apart: number): readonly Run[] {
  const runs: { from: number; to: number }[] = [];
  levels.forEach((level, frame) => {
    if (level <= edge) return;
    const last = runs.at(-1);
    if (last !== undefined && frame - last.to < apart) last.to = frame + 1;
    else runs.push({ from: frame, to: frame + 1 });
  });
  return runs;
}

/** Whether a run is loudest where it begins, and dies away from there. */
function diesAway(levels: readonly number[], { from, to }: Run): boolean {
  const own = levels.slice(from, to);
  const loudest = Math.max(...own);
  const peak = own.indexOf(loudest);
  if (peak * FRAME_SECONDS > PEAK_SECONDS) return false;
  return own.every((level, frame) => level <= loudest - DECAY * (frame * FRAME_SECONDS - PEAK_SECONDS));
}

/** Blows in `pcm` that are no sound of speech, where they stand alone; amid what is said every fifth of them may be one. */
export const loudBlows = (pcm: Float32Array, rate: number, { noise, snr }: Levels): readonly Blow[] =>
  blowsIn(pcm, rate, noise + snr).filter(({ level }) => level >= BETWEEN_WORDS);

/** Stretches of `pcm`, in frames of 10 ms, that are one of the `blows` and nothing else. */
export function loneBlows(pcm: Float32Array, rate: number, { noise, snr }: Levels, blows: readonly Blow[]): readonly Run[] {
  if (blows.length === 0) return [];
  const levels = frameLevels(pcm, Math.round(rate * FRAME_SECONDS));
  const runs = runsAbove(levels, noise + aboveNoise(snr), ALONE_SECONDS / FRAME_SECONDS);
  return runs.filter(
    (run) => diesAway(levels, run) && blows.some(({ at }) => Math.abs(at - run.from * FRAME_SECONDS) < BEGINS_WITHIN_SECONDS),
  );
}

/** A copy of `pcm` in which `blows` are no louder than `noise`, dB. */
export function withoutBlows(pcm: Float32Array, rate: number, blows: readonly Run[], noise: number): Float32Array {
  const size = Math.round(rate * FRAME_SECONDS);
  const quiet = pcm.slice();
  for (const { from, to } of blows) {
    const stretch = quiet.subarray(from * size, to * size);
    frameLevels(stretch, size).forEach((level, frame) => {
      const gain = Math.min(1, 10 ** ((noise - level) / 20));
      for (let at = frame * size; at < (frame + 1) * size; at += 1) stretch[at] = (stretch[at] ?? 0) * gain;
    });
  }
  return quiet;
}
