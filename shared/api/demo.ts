// Answers about the demo build: whether it is there, being made, or could not be made.
import { z } from "zod";
import { VERDICTS } from "../rules/finding.ts";

const count = z.int().min(0);

export const demoSummarySchema = z.strictObject({
  build: z.uuid(),
  clips: count,
  silent: count,
  readings: count,
  waiting: count,
  questions: count,
  photos: count,
  findings: z.record(z.enum(VERDICTS), count),
  seconds: z.number().min(0),
});

export const demoStateSchema = z.discriminatedUnion("state", [
  z.strictObject({ state: z.literal("absent") }),
  z.strictObject({ state: z.literal("running"), done: count, total: count }),
  z.strictObject({ state: z.literal("there"), build: z.uuid(), summary: demoSummarySchema.optional() }),
  z.strictObject({ state: z.literal("failed"), message: z.string() }),
]);
export type DemoState = z.infer<typeof demoStateSchema>;
