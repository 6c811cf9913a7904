// Requests and answers about whole builds: opening one, listing, summary, findings.
import { z } from "zod";
import { sha256Schema } from "../events/events.ts";
import { findingSchema, VERDICTS } from "../rules/finding.ts";
import { specSchema } from "../spec/spec.ts";

export const buildParamsSchema = z.strictObject({ build: z.uuid() });

/** Opens a build. `demo: true` takes the demo engine's spec sheet; without it `spec` is required. */
export const openBuildSchema = z
  .strictObject({
    /** UUID version 7 from the caller; the server makes one where it is absent. */
    id: z.uuid().optional(),
    name: z.string().trim().min(1).max(120),
    customer: z.string().trim().min(1).max(120).optional(),
    spec: specSchema.optional(),
    demo: z.boolean().optional(),
    device: z.string().min(1).max(60).optional(),
    by: z.string().min(1).max(60).optional(),
  })
  .refine((body) => body.spec !== undefined || body.demo === true, {
    path: ["spec"],
    error: "Expected a spec sheet for spec, got none",
  });
export type OpenBuild = z.infer<typeof openBuildSchema>;

/** Where a build's log stands: the number and the chained hash of its last event. */
export const headSchema = z.strictObject({ seq: z.int().min(1), hash: sha256Schema });

const counts = z.strictObject({
  readings: z.int().min(0),
  waiting: z.int().min(0),
  photos: z.int().min(0),
  utterances: z.int().min(0),
});

export const buildRowSchema = z.strictObject({
  id: z.uuid(),
  name: z.string(),
  customer: z.string().optional(),
  engine: z.string(),
  openedAt: z.string(),
  lastAt: z.string(),
  handedOverAt: z.string().optional(),
  head: headSchema,
  counts,
});
export type BuildRow = z.infer<typeof buildRowSchema>;
export const buildListSchema = z.strictObject({
  builds: z.array(buildRowSchema),
  /** Builds whose log does not even tell what was opened: their ids, and one sentence each. */
  unreadable: z.array(z.strictObject({ id: z.string(), say: z.string() })).optional(),
});

/** Summary of one build; `verdicts` counts findings by verdict. */
export const buildSummarySchema = buildRowSchema.extend({
  spec: specSchema,
  verdicts: z.record(z.enum(VERDICTS), z.int().min(0)),
  /** Entries of the log, by number and id, that could not be counted, and why. */
  setAside: z.array(z.strictObject({ seq: z.int().min(1), id: z.string(), type: z.string(), code: z.string(), say: z.string() })),
  steps: z.array(z.strictObject({ step: z.string(), openedAt: z.string(), closedAt: z.string().optional() })),
});
export type BuildSummary = z.infer<typeof buildSummarySchema>;

export const findingsSchema = z.strictObject({ head: headSchema, findings: z.array(findingSchema) });

export const healthSchema = z.strictObject({
  status: z.literal("ok"),
  version: z.string(),
  /** Id of the shop that answers, the same for as long as its data lives: what is refused by another shop is not refused for good. */
  shop: z.uuid(),
  /** Whether the recogniser is loaded; clips sent before wait for it. */
  hearing: z.enum(["ready", "loading", "absent"]),
  time: z.string(),
});

/** Who the service takes the caller for: what a screen may offer goes by `role`. */
export const callerSchema = z.strictObject({
  role: z.enum(["viewer", "bench", "owner"]),
  /** Id of the paired device; "shop" on the machine itself. */
  device: z.string(),
  name: z.string(),
});
export type Caller = z.infer<typeof callerSchema>;
