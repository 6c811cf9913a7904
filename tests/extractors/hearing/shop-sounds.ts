// What a synthetic voice says as a shop's microphone has it: in a quiet room, or after a hammer's blow.
import { shopNoise } from "../../../demo-data/shop-noise.ts";
import type { Voice } from "../../../demo-data/voices.ts";
import { resample } from "../../../extractors/hearing/index.ts";

const RATE = 16_000;

/** `text` with 0.3 s of nothing before it and 0.4 s after it, at 16 kHz. */
export async function inQuiet(voice: Voice, text: string): Promise<Float32Array> {
  const { pcm, rate } = await voice.say(text);
  const speech = resample(pcm, rate, RATE);
  const clip = new Float32Array(speech.length + RATE * 0.7);
  clip.set(speech, Math.round(RATE * 0.3));
  return clip;
}

/** The same 0.6 s later, after a blow or two as loud as the speech, which `seed` says when. */
export function afterBlows(pcm: Float32Array, rate: number, seed: number): Float32Array {
  const loudest = pcm.reduce((most, sample) => Math.max(most, Math.abs(sample)), 0);
  const sound = new Float32Array(Math.round(rate * 0.6) + pcm.length);
  sound.set(shopNoise("impact", Math.round(rate * 0.3), rate, seed).map((sample) => (sample * loudest) / 1.5));
  sound.set(pcm, Math.round(rate * 0.6));
  return sound;
}
