// Samples at 16 kHz in, whether enough of their loud part is a voice out: sound that comes again at a pitch of speech, and lies low in frequency.
// A saw, an air hammer, a thing that is dropped do neither; "wrong" and "next" were heard in them, as commands that all passes agreed on.
import { frameLevels } from "./level.ts";
import { ROUGH, resample } from "./resample.ts";

const RATE = 16_000;
/** Pitch is looked for in what lies below half of this, Hz: noise lies above it, mostly. */
const LOW_RATE = 4000;
/** 40 ms, a new one every 20 ms. */
const FRAME = 0.04 * LOW_RATE;
const HOP = 0.02 * LOW_RATE;
/** Periods of voices from 400 Hz down to 60 Hz, samples. */
const SHORTEST_PERIOD = LOW_RATE / 400;
const LONGEST_PERIOD = Math.ceil(LOW_RATE / 60);
/** Frames so far below the loudest count, dB. */
const LOUD_RANGE = 15;
/** How alike two stretches a period apart are, as their correlation. */
const ALIKE = 0.7;
/** Most power of the difference of neighbouring samples, as a share of the sound's: a ringing blow has a pitch too, but a high one. */
const HIGHEST = 0.5;

/** Whether a frame of `sound`, at 4 kHz, comes again a period of speech later. The sound goes on for a longest period after it. */
function comesAgain(sound: Float32Array, from: number): boolean {
  let here = 1e-9;
  for (let at = from; at < from + FRAME; at += 1) here += (sound[at] ?? 0) ** 2;
  for (let period = SHORTEST_PERIOD; period <= LONGEST_PERIOD; period += 1) {
    let together = 0;
    let there = 1e-9;
    for (let at = from; at < from + FRAME; at += 1) {
      const later = sound[at + period] ?? 0;
      together += (sound[at] ?? 0) * later;
      there += later * later;
    }
    if (together / Math.sqrt(here * there) > ALIKE) return true;
  }
  return false;
}

/** Whether most of a frame's power, at 16 kHz, lies low. */
function isLow(sound: Float32Array, from: number, size: number): boolean {
  let power = 1e-9;
  let steps = 0;
  for (let at = from + 1; at < from + size; at += 1) {
    power += (sound[at] ?? 0) ** 2;
    steps += ((sound[at] ?? 0) - (sound[at - 1] ?? 0)) ** 2;
  }
  return steps / power < HIGHEST;
}

/**
 * Whether at least `least` (0 to 1) of the loud frames of `sound`, mono at 16 kHz, are a voice; it is taken for one where it is too short to
 * tell. Frames are looked at until that is known: most of what a voice says is one.
 */
export function isVoice(sound: Float32Array, least: number): boolean {
  const low = resample(sound, RATE, LOW_RATE, ROUGH);
  const starts: number[] = [];
  for (let at = 0; at + FRAME + LONGEST_PERIOD < low.length; at += HOP) starts.push(at);
  const levels = starts.map((at) => frameLevels(low.subarray(at, at + FRAME), FRAME)[0] ?? Number.NEGATIVE_INFINITY);
  const loudest = Math.max(...levels);
  const loud = starts.filter((_, frame) => (levels[frame] ?? loudest) >= loudest - LOUD_RANGE);
  const wide = RATE / LOW_RATE;
  let voiced = 0;
  for (const at of loud) {
    if (isLow(sound, at * wide, FRAME * wide) && comesAgain(low, at)) voiced += 1;
    if (voiced >= least * loud.length) return true;
  }
  return loud.length === 0;
}
