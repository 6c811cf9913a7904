// Requests and answers about what goes into a build's log: events, typed words, clips, photos.
import { z } from "zod";
import { eventSchema, sha256Schema } from "../events/events.ts";
import { parsedSchema } from "../events/reading.ts";
import { placeSchema } from "../places/places.ts";
import { STEP_IDS } from "../steps/steps.ts";

/** Bounds that server and screen share. */
export const LIMITS = {
  /** Characters of one typed or heard utterance. */
  text: 2000,
  /** Events in one request. */
  events: 500,
  /** Bytes of a JSON body. */
  json: 4 * 1024 * 1024,
  /** Bytes and seconds of one clip. */
  clip: 16 * 1024 * 1024,
  clipSeconds: 60,
  /** Bytes of one photo, and photos in one request. */
  photo: 40 * 1024 * 1024,
  photos: 20,
  /** Events in one answer. */
  page: 1000,
} as const;

export const storedEventSchema = z.strictObject({
  seq: z.int().min(1),
  hash: sha256Schema,
  receivedAt: z.string(),
  event: eventSchema,
});

export const eventsQuerySchema = z.strictObject({
  /** Only events numbered above this. */
  after: z.coerce.number().int().min(0).default(0),
  limit: z.coerce.number().int().min(1).max(LIMITS.page).default(LIMITS.page),
});
/** Where to start watching, when the browser sends no Last-Event-ID: the newest event is the default. */
export const liveQuerySchema = z.strictObject({ after: z.coerce.number().int().min(0).optional() });
export const eventsPageSchema = z.strictObject({
  events: z.array(storedEventSchema),
  /** Number of the build's last event: more to fetch when it is above the last one here. */
  last: z.int().min(0),
});

export const postEventsSchema = z.strictObject({ events: z.array(eventSchema).min(1).max(LIMITS.events) });
/** That an event is in the log, and all that the log holds of it beside what was sent: who it was taken from is the shop's to say. */
export const receiptSchema = z.strictObject({
  id: z.uuid(),
  seq: z.int().min(1),
  hash: sha256Schema,
  receivedAt: z.string(),
  device: z.string(),
  by: z.string(),
});
export type Receipt = z.infer<typeof receiptSchema>;
export const receiptsSchema = z.strictObject({ stored: z.array(receiptSchema) });

/** The person at a device where none has given a name. */
export const UNNAMED = "bench";

const who = {
  /** Id of the utterance's event; the same id sent again gets the same answer and stores nothing. */
  id: z.uuid().optional(),
  device: z.string().min(1).max(60).optional(),
  by: z.string().min(1).max(60).optional(),
  /** When it was said or taken by the device's clock, ISO 8601 with its offset. */
  at: z.iso.datetime({ offset: true }).optional(),
  step: z.enum(STEP_IDS).optional(),
};

/** Typed words, read as if they had been spoken. */
export const utteranceSchema = z.strictObject({
  text: z.string().trim().min(1).max(LIMITS.text),
  ...who,
  place: placeSchema.optional(),
});
export type UtteranceBody = z.infer<typeof utteranceSchema>;
/** `say` is to be said back aloud: answers to commands, and questions. */
export const utteranceAnswerSchema = z.strictObject({
  parsed: parsedSchema,
  events: z.array(storedEventSchema),
  say: z.array(z.string()),
});

/** A place as a form field carries it: JSON text. */
export const placeFieldSchema = z
  .string()
  .max(1000)
  .transform((text, context) => {
    try {
      return JSON.parse(text) as unknown;
    } catch {
      context.addIssue({ code: "custom", message: "Expected JSON for place, got other text" });
      return z.NEVER;
    }
  })
  .pipe(placeSchema);

/** Fields beside the `clip` file of a multipart request. */
export const clipFieldsSchema = z.strictObject({ ...who, place: placeFieldSchema.optional() });

export const heardSchema = z.strictObject({ heard: z.string(), seconds: z.number().min(0) });
export const clipAnswerSchema = z.strictObject({
  clip: sha256Schema,
  ...heardSchema.shape,
  ...utteranceAnswerSchema.shape,
});
export type ClipAnswer = z.infer<typeof clipAnswerSchema>;
/** What `POST /api/hear` answers: the same reading of the sound, nothing stored. */
export const hearAnswerSchema = z.strictObject({ ...heardSchema.shape, parsed: parsedSchema });

/** Fields beside the `photo` files of a multipart request. */
export const photoFieldsSchema = z.strictObject({
  ...who,
  place: placeFieldSchema.optional(),
  proof: z.string().min(1).max(60).optional(),
  statement: z.string().trim().max(500).optional(),
  /** The device's clock when its shutter was pressed, ISO 8601 with its offset. */
  shutter: z.iso.datetime({ offset: true }).optional(),
  /** The device's clock when this request left it: tells how far it is from the shop's. */
  sent: z.iso.datetime({ offset: true }).optional(),
});
export const photosAnswerSchema = z.strictObject({ events: z.array(storedEventSchema) });

export const blobParamsSchema = z.strictObject({ sha256: sha256Schema });
export const blobAnswerSchema = z.strictObject({ sha256: sha256Schema, bytes: z.int().min(1) });
