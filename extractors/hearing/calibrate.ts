// A dozen known phrases read aloud in, a speaker's profile out: the frequency scale at which the words were heard best, and the
// noise of the room. One minute of reading; kept per person and given to the ear from then on.
import type { Spec } from "../../shared/spec/spec.ts";
import { levelsOf } from "./audio/level.ts";
import type { Ear } from "./ear.ts";
import { HearingError } from "./errors.ts";
import type { KnownPhrase, Speaker } from "./types.ts";

/** What to read aloud: every digit, the teens and tens that are taken for one another, and the trade's most used words. */
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

const SCALES = [0.86, 0.9, 0.94, 0.97, 1, 1.03, 1.06, 1.1, 1.14] as const;
const FEWEST_PHRASES = 4;

/**
 * Fit a speaker. For each scale the phrases are heard once; the scale with the most words right wins, the cheaper one among
 * equals (vocal tract length normalisation by warping the frequency axis: Lee and Rose, "Speaker normalization using efficient
 * frequency warping procedures", ICASSP 1996). Throws when fewer than four phrases are given.
 */
export function calibrate(ear: Pick<Ear, "hearKnown">, name: string, phrases: readonly KnownPhrase[], spec: Spec): Speaker {
  if (phrases.length < FEWEST_PHRASES)
    throw new HearingError("clip_empty", `Expected ${FEWEST_PHRASES} or more phrases for a calibration, got ${phrases.length}.`);
  const fits = SCALES.map((warp) => {
    let cost = 0;
    let right = 0;
    for (const phrase of phrases) {
      const fit = ear.hearKnown(phrase, warp, spec);
      cost += fit.cost;
      if (fit.right) right += 1;
    }
    return { warp, cost, right };
  });
  const best = fits.reduce((kept, fit) =>
    fit.right > kept.right || (fit.right === kept.right && fit.cost < kept.cost) ? fit : kept,
  );
  const noise = phrases.reduce((sum, { pcm, rate }) => sum + levelsOf(pcm, rate).noise, 0) / phrases.length;
  return {
    format: "thoubook-speaker/1",
    name,
    warp: best.warp,
    noise: Math.min(0, Math.round(noise * 10) / 10),
    right: best.right,
    phrases: phrases.length,
  };
}
