// A dozen known phrases read aloud in, a speaker's profile out: the frequency scale at which the words were heard best, what the
// model's sounds are like in the voice, and the noise of the room. One minute of reading; kept per person and given to the ear
// from then on.
import type { Spec } from "../../shared/spec/spec.ts";
import { levelsOf } from "./audio/level.ts";
import type { Ear } from "./ear.ts";
import { HearingError } from "./errors.ts";
import { bestScale } from "./scales.ts";
import type { KnownPhrase, KnownVoice, Speaker } from "./types.ts";

/**
 * What to read aloud: every digit, teens and tens that are taken for one another, and the trade's most used words. Three phrases more,
 * with the rest of the teens, made three more of 176 sentences in strong accents right, and one of another voice wrong.
 */
export const CALIBRATION_PHRASES: readonly string[] = [
  "ring gap two top, fifteen thou",
  "ring gap four second, fifty thou",
  "bore one bottom axial, three eight seven six nine",
  "crankpin three, one eight five oh four",
  "main two clearance, twenty four tenths",
  "rod three side, thirteen thou",
  "rod one nut b, forty seven foot pounds",
  "exhaust two lash, nine thou",
  "compression four, sixty one pounds",
  "protrusion three, eighteen thou proud",
  "bush fit three tenths over, number one",
  "end float seven thou",
];

const FEWEST_PHRASES = 4;

/**
 * Fit a speaker. At each scale that is tried the phrases are heard once; the scale with the most of them right wins, the cheaper
 * one among equals (vocal tract length normalisation by warping the frequency axis: Lee and Rose, "Speaker normalization using efficient
 * frequency warping procedures", ICASSP 1996). Then the model is fitted to the voice (see voice/adapt.ts), and kept so unless it
 * hears the phrases worse. Throws when fewer than four phrases are given.
 */
export function calibrate(
  ear: Pick<Ear, "hearKnown" | "learnVoice">,
  name: string,
  phrases: readonly KnownPhrase[],
  spec: Spec,
): Speaker {
  if (phrases.length < FEWEST_PHRASES)
    throw new HearingError("clip_empty", `Expected ${FEWEST_PHRASES} or more phrases for a calibration, got ${phrases.length}.`);
  const fitOf = (voice: KnownVoice) => {
    const heard = phrases.map((phrase) => ear.hearKnown(phrase, voice, spec));
    return { right: heard.filter(({ right }) => right).length, cost: heard.reduce((sum, { cost }) => sum + cost, 0), ...voice };
  };
  const best = bestScale((warp) => fitOf({ name, warp }));
  const fitted = fitOf({ name, warp: best.warp, voice: ear.learnVoice(phrases, best.warp) });
  const { warp, right, voice } = fitted.right >= best.right ? fitted : best;
  const noise = phrases.reduce((sum, { pcm, rate }) => sum + levelsOf(pcm, rate).noise, 0) / phrases.length;
  return {
    format: "thoubook-speaker/1",
    name,
    warp,
    noise: Math.min(0, Math.round(noise * 10) / 10),
    right,
    phrases: phrases.length,
    ...(voice === undefined ? {} : { voice }),
  };
}
