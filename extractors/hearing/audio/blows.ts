// Samples in, blows out: sounds as loud as speech that are there at once in every pitch, as of a hammer on steel.
import { frameLevels } from "./level.ts";

/** A blow that was struck while the clip lasts. */
export interface Blow {
  /** Seconds from the clip's start. */
  readonly at: number;
  /** Its treble, dB over the whole of loud speech: about 3 where a blow is as loud as that. */
  readonly level: number;
}

/**
 * Treble of a blow that is no sound of speech, dB over loud speech. Speech has consonants that rise as fast as a blow, but not between
 * words: of 27 clips with blows at 5 and at 10 dB all but one or two had a blow there, and no clean one.
 */
export const BETWEEN_WORDS = -3;

const FRAME_SECONDS = 0.004;
/** A blow is there within two frames, and this much louder in the treble, dB, than the three frames before those. */
const RISE = 12;
/** The same holds for some consonants ("t", "k"), which are not so loud in all pitches, dB over loud speech. */
const LEAST_WHOLE = -6;

/** The second difference of sound, which lifts its treble out of the vowels; it begins at the third sample. */
function trebleOf(pcm: Float32Array): Float64Array {
  const treble = new Float64Array(Math.max(0, pcm.length - 2));
  for (let at = 0; at < treble.length; at += 1) treble[at] = (pcm[at + 2] ?? 0) - 2 * (pcm[at + 1] ?? 0) + (pcm[at] ?? 0);
  return treble;
}

/** The blows in a clip of which loud speech is at `loud`, dB; one blow may be found two or three times, a frame apart. */
export function blowsIn(pcm: Float32Array, rate: number, loud: number): readonly Blow[] {
  const size = Math.round(rate * FRAME_SECONDS);
  const whole = frameLevels(pcm.subarray(2), size);
  const treble = frameLevels(trebleOf(pcm), size);
  const most = (of: readonly number[], from: number, to: number) => Math.max(...of.slice(from, to));
  const blows: Blow[] = [];
  for (let frame = 4; frame + 1 < treble.length; frame += 1) {
    const now = most(treble, frame, frame + 2);
    if (now - most(treble, frame - 4, frame - 1) < RISE || most(whole, frame, frame + 2) - loud < LEAST_WHOLE) continue;
    blows.push({ at: frame * FRAME_SECONDS, level: now - loud });
  }
  return blows;
}
