// The log's events: one envelope, one discriminated union on `type`. Events are never changed; a correction is a new event.
import { z } from "zod";
import { placeSchema } from "../places/places.ts";
import { CONDITIONS, specSchema } from "../spec/spec.ts";
import { STEP_IDS } from "../steps/steps.ts";
import { noteSchema, questionSchema, readingSchema } from "./reading.ts";

const id = z.uuid();
export const sha256Schema = z.string().regex(/^[0-9a-f]{64}$/);

/** A moment with its source: what clock said so, and whether it knew its zone. */
export const photoTimeSchema = z.strictObject({
  at: z.string(),
  source: z.enum(["exif_original", "exif_digitized", "exif_modified", "shutter", "server"]),
  zoneKnown: z.boolean(),
  /** How far the sending device's clock was ahead of the shop's at receipt, in seconds; behind is negative. */
  deviceAhead: z.number().optional(),
});

/** What a program can see of a photo. It claims no more than this. */
export const photoFactsSchema = z.strictObject({
  sha256: sha256Schema,
  bytes: z.int().min(1),
  type: z.enum(["image/jpeg", "image/png", "image/webp", "image/heic"]),
  width: z.int().min(1),
  height: z.int().min(1),
  orientation: z.int().min(1).max(8),
  taken: photoTimeSchema,
  /** 64-bit difference hash as 16 hex digits: near-twins differ in few bits. */
  fingerprint: z.string().regex(/^[0-9a-f]{16}$/),
  /** Variance of the Laplacian of the grey picture at 1024 px; higher is sharper. */
  focus: z.number(),
  /** Shares of pixels clipped to white and to black, 0..1. */
  highlights: z.number(),
  shadows: z.number(),
  /** What a tag card in the frame said, if one was read. */
  card: z.strictObject({ step: z.enum(STEP_IDS).optional(), place: placeSchema, subject: z.string().optional() }).optional(),
});
export type PhotoFacts = z.infer<typeof photoFactsSchema>;

/** Units that instruments of the register read in. */
export const instrumentUnitSchema = z.enum([
  "in",
  "mm",
  "ft_lbf",
  "N_m",
  "g",
  "cc",
  "degC",
  "psi",
  "kPa",
  "lbf",
  "N",
  "percent",
  "rpm",
]);

const DATA = {
  "build.opened": z.strictObject({
    name: z.string().min(1).max(120),
    customer: z.string().max(120).optional(),
    spec: specSchema,
  }),
  "spec.revised": z.strictObject({ spec: specSchema, why: z.string().max(500).optional() }),
  "step.opened": z.strictObject({ step: z.enum(STEP_IDS) }),
  "place.opened": z.strictObject({ place: placeSchema }),
  /** What was heard or typed. `clip` is the SHA-256 of the original sound. */
  "utterance.heard": z.strictObject({
    text: z.string().max(2000),
    by: z.enum(["voice", "typed"]),
    clip: sha256Schema.optional(),
    seconds: z.number().min(0).optional(),
    unread: z.array(z.string()).optional(),
  }),
  "reading.taken": z.strictObject({
    utterance: id.optional(),
    reading: readingSchema,
    step: z.enum(STEP_IDS).optional(),
    condition: z.enum(CONDITIONS).optional(),
    instrument: z.string().max(60).optional(),
  }),
  /** The yes or no that a waiting reading needed. */
  "reading.confirmed": z.strictObject({ target: id, utterance: id.optional() }),
  "reading.rejected": z.strictObject({ target: id, utterance: id.optional() }),
  /** A new value for an earlier reading; the old one is kept. */
  "reading.corrected": z.strictObject({ target: id, reading: readingSchema, utterance: id.optional() }),
  "reading.retagged": z.strictObject({ target: id, place: placeSchema, utterance: id.optional() }),
  "reading.struck": z.strictObject({ target: id, utterance: id.optional() }),
  "question.asked": z.strictObject({ question: questionSchema, utterance: id.optional() }),
  "note.made": z.strictObject({ note: noteSchema, step: z.enum(STEP_IDS).optional(), utterance: id.optional() }),
  "photo.taken": z.strictObject({
    photo: photoFactsSchema,
    place: placeSchema,
    step: z.enum(STEP_IDS).optional(),
    /** Id of the spec sheet's proof this picture is for. */
    proof: z.string().optional(),
    statement: z.string().max(500).optional(),
  }),
  "photo.filed": z.strictObject({
    target: id,
    place: placeSchema,
    step: z.enum(STEP_IDS).optional(),
    proof: z.string().optional(),
  }),
  "photo.marked": z.strictObject({
    target: id,
    marks: z
      .array(
        z.strictObject({ kind: z.enum(["arrow", "circle"]), x1: z.number(), y1: z.number(), x2: z.number(), y2: z.number() }),
      )
      .max(50),
  }),
  /** A part was changed or machined: earlier readings on it no longer hold. */
  "part.changed": z.strictObject({
    part: z.enum([
      "block",
      "bore",
      "crank",
      "main_bearing",
      "rod_bearing",
      "rod",
      "pin",
      "bush",
      "piston",
      "rings",
      "head",
      "gasket",
      "valve",
      "guide",
      "spring",
      "cam",
    ]),
    place: placeSchema,
    what: z.string().max(300),
  }),
  "instrument.kept": z.strictObject({
    instrument: z.string().max(60),
    kind: z.string().max(60),
    resolution: z.string(),
    uncertainty: z.string(),
    unit: instrumentUnitSchema,
    quantities: z.array(z.string()),
    /** Expanded uncertainty of repeating, the part of the whole that is another at every reading. */
    repeat: z.string().optional(),
    /** Largest figure it reads. */
    range: z.string().optional(),
    /** Day of its last calibration, and the certificate's number. */
    calibrated: z.iso.date().optional(),
    certificate: z.string().max(80).optional(),
  }),
  "instrument.zeroed": z.strictObject({ instrument: z.string().max(60), deviation: z.string(), unit: instrumentUnitSchema }),
  /** A finding left open on purpose, with the name of who accepts it. */
  "finding.accepted": z.strictObject({
    rule: z.string(),
    place: placeSchema,
    why: z.string().min(1).max(500),
    by: z.string().min(1).max(120),
  }),
  "step.closed": z.strictObject({ step: z.enum(STEP_IDS) }),
  "build.handed_over": z.strictObject({ by: z.string().min(1).max(120), to: z.string().max(120).optional(), head: sha256Schema }),
} as const;

export type EventType = keyof typeof DATA;
export const EVENT_TYPES = Object.keys(DATA) as EventType[];
export type EventData = { [T in EventType]: z.infer<(typeof DATA)[T]> };

const envelope = {
  /** UUID version 7, made where the event was made, before any network. */
  id,
  build: id,
  /** When it happened by the clock of the device that made it, ISO 8601 with its offset. */
  at: z.iso.datetime({ offset: true }),
  /** Id of the paired device, which may name a part of it behind a slash. */
  device: z.string().min(1).max(100),
  /** Counts up by one for each event of the device: the order that its clock cannot spoil. */
  deviceSeq: z.int().min(0),
  /** Who did it, as the shop calls them: the device's own name, and behind it in brackets the person it says was there. */
  by: z.string().min(1).max(130),
};

type Variant<T extends EventType> = {
  id: string;
  build: string;
  at: string;
  device: string;
  deviceSeq: number;
  by: string;
  type: T;
  data: EventData[T];
};
export type BenchEvent = { [T in EventType]: Variant<T> }[EventType];

const variants = EVENT_TYPES.map((type) => z.strictObject({ ...envelope, type: z.literal(type), data: DATA[type] }));
/** Any event of the log. Unknown types and unknown fields are refused. */
export const eventSchema = z.discriminatedUnion("type", variants as never) as unknown as z.ZodType<BenchEvent>;

/** An event as the store holds it: numbered and chained per build. */
export interface StoredEvent {
  readonly seq: number;
  /** SHA-256 over the previous hash and this event's stored bytes. */
  readonly hash: string;
  readonly receivedAt: string;
  readonly event: BenchEvent;
}

/** A build as a file: what `export` writes and `import` and `check` read. */
export const exportSchema = z.strictObject({
  format: z.literal("thoubook-build/1"),
  build: id,
  events: z.array(z.strictObject({ seq: z.int().min(1), hash: sha256Schema, receivedAt: z.iso.datetime(), event: eventSchema })),
});
export type BuildExport = z.infer<typeof exportSchema>;
