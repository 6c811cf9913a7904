// An engine's spec sheet: what it has, its nominal sizes, its limits with their sources, and the proof its steps need.
import { z } from "zod";
import { DECISION_RULE_NAMES, type DecisionRule } from "../compute/conformance.ts";
import { FASTENERS, PLACE_KEYS, placeSchema } from "../places/places.ts";
import { NOMINAL_KEYS, QUANTITY_IDS } from "../quantities/types.ts";
import { STEP_IDS } from "../steps/steps.ts";
import { UNIT_IDS } from "../units/units.ts";
import { engineSchema } from "./engine.ts";
import { LENGTH_TEXT, UNIT_SYSTEMS } from "./sizes.ts";

/** Decimal text, so that 3.8750 stays 3.8750. */
const decimal = z.string().regex(/^-?\d*\.?\d+$/, { error: "Expected a decimal number in quotes" });

/** A length: decimal text, and its unit where that is not the sheet's own. */
const length = z
  .string()
  .regex(LENGTH_TEXT, { error: "Expected a decimal number in quotes, with mm or in behind it or nothing" });

/** Units of figures that are computed, besides those that are measured. */
export const LIMIT_UNITS = [...UNIT_IDS, "ratio", "in_per_in"] as const;
export type LimitUnit = (typeof LIMIT_UNITS)[number];

/** Where a figure comes from. The maker's manual wins over all others. */
export const sourceSchema = z.strictObject({
  kind: z.enum(["maker", "standard", "common_practice", "shop"]),
  cite: z.string().max(300),
});
export type Source = z.infer<typeof sourceSchema>;

export const CONDITIONS = ["as_found", "machined", "trial", "final"] as const;
/** When in the job a reading was taken; the same quantity is logged several times and all are kept. */
export type Condition = (typeof CONDITIONS)[number];

/**
 * One limit. Inside `accept` passes; outside it but inside `reject` warns; outside `reject` fails.
 * Where `reject` is absent, outside `accept` fails. `perInchOf` multiplies both by that nominal (ring gap per inch of bore).
 */
export const limitSchema = z.strictObject({
  id: z.string().regex(/^[a-z0-9_]+$/),
  /** A quantity of the registry, or a derived figure's id ("bore_out_of_round"). */
  on: z.string(),
  where: placeSchema.optional(),
  condition: z.enum(CONDITIONS).optional(),
  accept: z.strictObject({ low: decimal.optional(), high: decimal.optional() }),
  reject: z.strictObject({ low: decimal.optional(), high: decimal.optional() }).optional(),
  unit: z.enum(LIMIT_UNITS),
  perInchOf: z.enum(NOMINAL_KEYS).optional(),
  source: sourceSchema,
});
export type Limit = z.infer<typeof limitSchema>;

/** A picture a step must have before it is closed, for each of the places its scope names. */
export const proofSchema = z.strictObject({
  id: z.string().regex(/^[a-z0-9_]+$/),
  step: z.enum(STEP_IDS),
  title: z.string().max(80),
  each: z.enum(["engine", "cylinder", "main", "rod", "crankpin", "rod_nut", "main_nut"]),
  source: sourceSchema,
});
export type Proof = z.infer<typeof proofSchema>;

/** Readings a step must have; `each` names the slots to run over. */
export const expectedSchema = z.strictObject({
  step: z.enum(STEP_IDS),
  quantity: z.enum(QUANTITY_IDS),
  condition: z.enum(CONDITIONS).optional(),
  where: placeSchema.optional(),
  each: z.array(z.enum(PLACE_KEYS)),
});
export type Expected = z.infer<typeof expectedSchema>;

/** A step of the plan: what it is called here, which come first, and which it covers. */
export const planStepSchema = z.strictObject({
  id: z.enum(STEP_IDS),
  title: z.string().min(1).max(60),
  after: z.array(z.enum(STEP_IDS)),
  hides: z.array(z.enum(STEP_IDS)).optional(),
});

export const fastenerSchema = z.strictObject({
  thread: z.string().max(20),
  /** An inch thread's; a metric one has its pitch instead. */
  threadsPerInch: z.int().min(4).max(80).optional(),
  /** Millimetres. */
  pitch: decimal.optional(),
  majorDiameter: length,
  castle: z.boolean(),
  low: decimal,
  high: decimal,
  unit: z.enum(["ft_lbf", "in_lbf", "N_m"]),
  stages: z.array(decimal).optional(),
  /** Turned on by so many degrees after the last stage. */
  angle: decimal.optional(),
  /** Numbers of the nuts in the order in which they are tightened. */
  order: z.array(z.int().min(1).max(99)).optional(),
  /** Nut factor K of T = K F d with the lubricant named. */
  k: decimal,
  lubricant: z.string().max(60),
  /** Proof strength of the bolt, where its grade is known: lbf/in2, or MPa where it says so. */
  proof: z
    .string()
    .regex(/^\d*\.?\d+( ?MPa)?$/, { error: "Expected a strength in lbf/in2, or in MPa with MPa behind it" })
    .optional(),
  count: z.int().min(1).max(99),
  source: sourceSchema,
});

export const specSchema = z.strictObject({
  format: z.literal("thoubook-spec/1"),
  id: z
    .string()
    .regex(/^[a-z0-9-]+$/)
    .max(60),
  version: z.int().min(1),
  name: z.string().min(1).max(120),
  note: z.string().max(2000).optional(),
  /** What bare lengths of this sheet are in, and what everything about the engine is said and shown in; inch where nothing is said. */
  units: z.enum(UNIT_SYSTEMS).optional(),
  engine: engineSchema,
  /** How the shop decides near a limit where the gauges are known; ISO 14253-1:2017 where nothing is said. */
  decision: z.enum(DECISION_RULE_NAMES as [DecisionRule, ...DecisionRule[]]).optional(),
  materials: z.strictObject({ block: z.string(), piston: z.string(), crank: z.string() }),
  /** Nominal sizes, bare ones in the sheet's own system; more than one where the size changes in the job (standard bore, then the oversize). */
  nominals: z.partialRecord(z.enum(NOMINAL_KEYS), z.array(length).min(1)),
  /** Figures that computations need and nobody measures on this build, each in the unit that it names. */
  figures: z.record(z.string(), z.strictObject({ value: decimal, unit: z.string().max(12), source: sourceSchema })),
  oversizes: z.array(length),
  undersizes: z.array(length),
  fasteners: z.partialRecord(z.enum(FASTENERS), fastenerSchema),
  /** The job's steps in their order; those of the engine's kind where the sheet has none. */
  plan: z.array(planStepSchema).max(60).optional(),
  limits: z.array(limitSchema),
  expected: z.array(expectedSchema),
  proofs: z.array(proofSchema),
});
export type Spec = z.infer<typeof specSchema>;
export { BEARING_KINDS, type BearingKind, bearingAt, type Engine } from "./engine.ts";
