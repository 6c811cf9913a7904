// What a rule says of a build: one verdict at one place, with its arithmetic.

import { z } from "zod";
import { unitSchema } from "../events/reading.ts";
import { placeSchema } from "../places/places.ts";
import type { Sized } from "../spec/sizes.ts";
import { saidFor, toldIn } from "./text.ts";

export const VERDICTS = ["pass", "warn", "fail", "unknown"] as const;
export type Verdict = (typeof VERDICTS)[number];

export const findingSchema = z.strictObject({
  rule: z.string(),
  verdict: z.enum(VERDICTS),
  place: placeSchema,
  value: z.number().nullable(),
  /** The limit that decided, as text with its unit: "0.0117 to 0.0176 in". */
  limit: z.string().nullable(),
  unit: unitSchema.nullable(),
  /** One sentence with the values, the formula and the comparison. */
  why: z.string(),
  /** Where the limit comes from. */
  source: z.string().optional(),
  /** What to do about it, when it is not a pass. */
  remedy: z.string().optional(),
  step: z.string().optional(),
  /** Why it no longer stands open though it is no pass: "bored since and measured again". */
  settled: z.string().optional(),
  /** Who left it open on purpose, and why. */
  accepted: z.string().optional(),
  /** Ids of the events it rests on. */
  evidence: z.array(z.string()),
});
export type Finding = z.infer<typeof findingSchema>;

/** Whether a finding still asks for something: not a pass, not settled by later work, not accepted. */
export function isOpen(finding: Finding): boolean {
  return finding.verdict !== "pass" && finding.settled === undefined && finding.accepted === undefined;
}

/** A finding worked out by the rules, who reckon in inches, told in the sheet's own system: its sentences and its value alike. */
export function toldFor<T extends Finding | undefined>(sheet: Pick<Sized, "units">, find: () => T): T {
  return saidFor(sheet, () => {
    const finding = find();
    if (finding === undefined || finding.value === null || finding.unit === null) return finding;
    const [value, unit] = toldIn(finding.value, finding.unit);
    return { ...finding, value, unit };
  });
}
