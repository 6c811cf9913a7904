// How the shop's data is looked after: the last check of everything, and the last backups.
import { z } from "zod";

const backup = z.strictObject({ at: z.iso.datetime(), faults: z.int().min(0) });

export const keepingSchema = z.strictObject({
  /** The last check of all hashes since the start, with one sentence a fault. */
  check: z.strictObject({ at: z.iso.datetime(), faults: z.array(z.string()) }).optional(),
  backups: z.strictObject({
    last: backup.optional(),
    /** The newest one without faults: its age is what counts. */
    lastGood: backup.optional(),
    next: z.iso.datetime().optional(),
    /** Whether the last scheduled one failed or has faults. */
    failed: z.boolean().optional(),
  }),
});
export type KeepingAnswer = z.infer<typeof keepingSchema>;
