// What can be wrong with a shop's data, as verify tells it and as a backup's manifest keeps it.
import { z } from "zod";

export const FAULT_CODES = [
  "damaged_database",
  "gap",
  "broken_link",
  "wrong_hash",
  "wrong_event",
  "wrong_column",
  "missing_reference",
  "wrong_reference",
  "missing_blob",
  "wrong_blob",
  "lost_entries",
  "unknown_head",
  "damaged_file",
] as const;

export const faultSchema = z.strictObject({
  code: z.enum(FAULT_CODES),
  /** One sentence with the build and the entry where there is one. */
  message: z.string(),
  build: z.string().optional(),
  seq: z.int().optional(),
  sha256: z.string().optional(),
});
export type Fault = z.infer<typeof faultSchema>;
