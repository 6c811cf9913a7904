// A kept speaker profile: its schema, and the check that what was read is one.
import { z } from "zod";
import type { Speaker } from "./types.ts";

export const speakerSchema = z.strictObject({
  format: z.literal("thoubook-speaker/1"),
  name: z.string().max(60),
  warp: z.number().min(0.7).max(1.3),
  noise: z.number().max(0),
  right: z.int().min(0),
  phrases: z.int().min(0),
  voice: z.base64().max(1_000_000).exactOptional(),
});

/** The profile in `json`. Throws when it is none. */
export function readSpeaker(json: unknown): Speaker {
  return speakerSchema.parse(json);
}
