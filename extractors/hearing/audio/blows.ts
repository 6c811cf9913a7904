// Samples in, blows out: sounds as loud as speech that are there at once in every pitch, as of a hammer on steel.

/** A blow that was struck while the clip lasts. */
export interface Blow {
  /** Seconds from the clip's start. */
  readonly at: number;
  /** Its treble, dB over the whole of loud speech: about 3 where a blow is as loud as that. */
  readonly level: number;
}

const FRAME_SECONDS = 0.004;
/** A blow is there within two frames, and this much louder in the treble, dB, than the three frames before those. */
const RISE = 12;
/** The same holds for some consonants ("t", "k"), which are not so loud in all pitches, dB over loud speech. */
const LEAST_WHOLE = -6;

const decibels = (sum: number, count: number) => 10 * Math.log10(sum / count + 1e-12);

/** Energy of each frame, dB, and of its treble, which the second difference lifts out of the vowels. */
function framesOf(pcm: Float32Array, rate: number) {
  const size = Math.round(rate * FRAME_SECONDS);
  const whole: number[] = [];
  const treble: number[] = [];
  for (let from = 2; from + size <= pcm.length; from += size) {
    let all = 0;
    let lifted = 0;
    for (let i = from; i < from + size; i += 1) {
      const sample = pcm[i] ?? 0;
      all += sample * sample;
      lifted += (sample - 2 * (pcm[i - 1] ?? 0) + (pcm[i - 2] ?? 0)) ** 2;
    }
    whole.push(decibels(all, size));
    treble.push(decibels(lifted, size));
  }
  return { whole, treble };
}

/** The blows in a clip of which loud speech is at `loud`, dB; one blow may be found two or three times, a frame apart. */
export function blowsIn(pcm: Float32Array, rate: number, loud: number): readonly Blow[] {
  const { whole, treble } = framesOf(pcm, rate);
  const blows: Blow[] = [];
  for (let frame = 4; frame + 1 < treble.length; frame += 1) {
    const latest = (of: readonly number[]) => Math.max(of[frame] ?? 0, of[frame + 1] ?? 0);
    const before = Math.max(...treble.slice(frame - 4, frame - 1));
    if (latest(treble) - before < RISE || latest(whole) - loud < LEAST_WHOLE) continue;
    blows.push({ at: frame * FRAME_SECONDS, level: latest(treble) - loud });
  }
  return blows;
}
