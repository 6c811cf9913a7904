// What one utterance can come to: readings, questions, commands, notes. One schema for parser, log, API and screen.
import { z } from "zod";
import { placeSchema } from "../places/places.ts";
import { QUANTITY_IDS, type QuantityId } from "../quantities/types.ts";
import { CONDITIONS } from "../spec/spec.ts";
import { STEP_IDS } from "../steps/steps.ts";
import { UNIT_IDS, type UnitId } from "../units/units.ts";

export const unitSchema = z.enum(UNIT_IDS as [UnitId, ...UnitId[]]);
/** Where in the utterance's text something stands: first character, and one past the last. */
export const spanSchema = z.tuple([z.int().min(0), z.int().min(0)]);

/** A typed measurement. `value` is the exact decimal's nearest double; `digits` keeps the decimal as it was said. */
export const readingSchema = z.strictObject({
  quantity: z.enum(QUANTITY_IDS),
  place: placeSchema,
  value: z.number(),
  unit: unitSchema,
  /** The value as decimal text with the digits that were spoken: "3.8750". */
  digits: z.string().regex(/^-?\d+(\.\d+)?$/),
  /** Names of the fields that were not spoken but taken from context, spec or shop setting: "unit", "quantity", "cylinder". */
  implied: z.array(z.string()),
  do: z.enum(["accept", "confirm"]),
  span: spanSchema,
  /** Why it waits for a yes, as a stable code. */
  because: z.string().optional(),
  condition: z.enum(CONDITIONS).optional(),
  /** The second figure of a force at a length or a bend over a length. */
  over: z.strictObject({ value: z.number(), unit: unitSchema, digits: z.string() }).optional(),
});
export type Reading = z.infer<typeof readingSchema>;

export const questionSchema = z.strictObject({
  /** Stable code: "which_cylinder", "need_number", "approximate" and so on. */
  code: z.string().regex(/^[a-z0-9_]+$/),
  /** To be said aloud, under eight words. */
  say: z.string(),
  options: z.array(z.string()).optional(),
  about: z.record(z.string(), z.unknown()).optional(),
});
export type Question = z.infer<typeof questionSchema>;

/** What the figure that is asked for is of, or may be of; nothing where no quantity was named. */
export function quantitiesAsked({ code, about }: Question): readonly QuantityId[] {
  const named = code === "need_number" ? about?.quantities : undefined;
  return Array.isArray(named) ? QUANTITY_IDS.filter((id) => named.includes(id)) : [];
}

export const COMMANDS = [
  "undo",
  "correct",
  "retag",
  "confirm",
  "reject",
  "next",
  "repeat",
  "photo",
  "copy",
  "pause",
  "resume",
  "done",
  "goto",
  "step",
] as const;
export const commandSchema = z.strictObject({
  command: z.enum(COMMANDS),
  place: placeSchema.optional(),
  step: z.enum(STEP_IDS).optional(),
  span: spanSchema.optional(),
});
export type Command = z.infer<typeof commandSchema>;

/** Something said that is not a figure: a free note, a fact about a nut, a pass, a statement beside a photo. */
export const noteSchema = z.strictObject({
  kind: z.enum(["text", "inspection", "castle_state", "cotter", "statement", "crack", "part_changed"]),
  text: z.string(),
  state: z.string().optional(),
  place: placeSchema.optional(),
  span: spanSchema.optional(),
});
export type Note = z.infer<typeof noteSchema>;

/** What the parser makes of one utterance. */
export const parsedSchema = z.strictObject({
  text: z.string(),
  readings: z.array(readingSchema),
  questions: z.array(questionSchema),
  commands: z.array(commandSchema),
  notes: z.array(noteSchema),
  /** Words nothing was made of. */
  unread: z.array(z.string()),
});
export type Parsed = z.infer<typeof parsedSchema>;

/** What is known before the utterance is heard. */
export const contextSchema = z.looseObject({
  quantity: z.enum(QUANTITY_IDS).optional(),
  place: placeSchema.optional(),
  unit_system: z.enum(["inch", "metric"]).optional(),
  last: z.looseObject({ quantity: z.enum(QUANTITY_IDS), place: placeSchema, value: z.number(), unit: unitSchema }).optional(),
  step: z.enum(STEP_IDS).optional(),
});
export type Context = z.infer<typeof contextSchema>;
