// A kept speaker profile: its schema, and the check that what was read is one.
import { z } from "zod";
import type { LearntVoice, Speaker } from "./types.ts";

export const speakerSchema = z.strictObject({
  format: z.literal("thoubook-speaker/1"),
  name: z.string().max(60),
  warp: z.number().min(0.7).max(1.3),
  noise: z.number().max(0).exactOptional(),
  right: z.int().min(0),
  phrases: z.int().min(0),
  sentences: z.int().min(0).exactOptional(),
  voice: z.base64().max(1_000_000).exactOptional(),
});

/** The profile in `json`. Throws when it is none. */
export function readSpeaker(json: unknown): Speaker {
  return speakerSchema.parse(json);
}

/** Sentences after which a voice that never read aloud is known well enough to be kept. */
const FEWEST_SENTENCES = 12;

/**
 * The profile of a person with what a session learnt; undefined where there was none and too little was learnt to begin one.
 * `known` is the profile that the session began with: what it learnt holds that one's share already.
 */
export function withLearnt(known: Speaker | undefined, name: string, learnt: LearntVoice): Speaker | undefined {
  const { warp, voice } = learnt;
  const sentences = (known?.sentences ?? 0) + learnt.sentences;
  if (known !== undefined) return { ...known, voice, sentences };
  if (warp === undefined || sentences < FEWEST_SENTENCES) return undefined;
  return { format: "thoubook-speaker/1", name, warp: Math.round(warp * 1000) / 1000, right: 0, phrases: 0, sentences, voice };
}
