// A picture as it came in; its facts and the two pictures that screens show out. The original bytes are never changed.
import { createHash } from "node:crypto";
import { readFile, stat } from "node:fs/promises";
import pLimit from "p-limit";
import type { PhotoFacts } from "../../shared/events/events.ts";
import type { Card } from "../../shared/photo/card.ts";
import type { CardSeen } from "./card-reader.ts";
import { PhotoError } from "./errors.ts";
import { readTimeTags } from "./exif.ts";
import { findCards } from "./find-cards.ts";
import { decodeHeic } from "./heic.ts";
import { clippingOf, fingerprintOf, focusOf, type Grey } from "./measures.ts";
import { decodePixels, greyOf, type Header, makeDerivatives, type Pixels, readHeader } from "./pixels.ts";
import { type PhotoType, sniffPhoto } from "./sniff.ts";
import { takenAt } from "./taken.ts";

export interface PhotoLimits {
  /** Most bytes of a file. */
  readonly bytes: number;
  /** Most pixels, checked from the header before any is decoded. Some phones make 108 or 200 million: raise on purpose. */
  readonly pixels: number;
  /** Longest time of one decode. */
  readonly seconds: number;
  /** Pictures worked on at a time; each holds about 60 MB at most beside its decoder. */
  readonly atOnce: number;
}
export const PHOTO_LIMITS: PhotoLimits = { bytes: 40 * 1024 * 1024, pixels: 64_000_000, seconds: 20, atOnce: 1 };

export interface PhotoInput {
  /** The device's clock when the shutter was pressed, ISO 8601 with offset. */
  readonly shutter?: string | undefined;
  /** The device's clock when it sent the picture, ISO 8601 with offset. */
  readonly sent?: string | undefined;
  /** The server's clock at receipt, ISO 8601; now where absent. */
  readonly receivedAt?: string | undefined;
}

export interface PhotoRead {
  readonly facts: PhotoFacts;
  /** WebP of at most 640 px, upright, without metadata. */
  readonly thumb: Buffer;
  /** WebP of at most 2048 px, upright, without metadata. */
  readonly full: Buffer;
  /** All tag cards in the frame. Where they name different places `facts.card` is absent: the place must be asked. */
  readonly cards: readonly Card[];
}

export interface PhotoReader {
  /** @throws PhotoError for a picture that is refused; nothing else suffers. */
  read(photo: Buffer | string, input?: PhotoInput): Promise<PhotoRead>;
}

async function load(photo: Buffer | string, limits: PhotoLimits): Promise<Buffer> {
  const size = typeof photo === "string" ? (await stat(photo)).size : photo.length;
  if (size > limits.bytes) {
    const megabytes = (bytes: number) => `${Math.ceil(bytes / 1048576)} MB`;
    throw new PhotoError("too_many_bytes", `Expected a picture of at most ${megabytes(limits.bytes)}, got ${megabytes(size)}.`);
  }
  return typeof photo === "string" ? readFile(photo) : photo;
}

/** One card, or several that all say the same. */
function agreedCard(cards: readonly Card[]): Card | undefined {
  const texts = new Set(cards.map((card) => JSON.stringify(card)));
  return texts.size === 1 ? cards[0] : undefined;
}

async function decode(bytes: Buffer, type: PhotoType, limits: PhotoLimits): Promise<{ header: Header; pixels: Pixels }> {
  if (type !== "image/heic") {
    const header = await readHeader(bytes, limits);
    return { header, pixels: await decodePixels(bytes, limits) };
  }
  const decoded = await decodeHeic(bytes, limits);
  const { exif } = await readHeader(bytes, limits).catch(() => ({ exif: undefined }));
  // The decoder has turned the picture upright already (its "irot" and "imir" properties).
  const header = { width: decoded.width, height: decoded.height, orientation: 1, exif };
  return { header, pixels: await decodePixels(decoded, limits) };
}

async function look(pixels: Pixels): Promise<{ grey: Grey; seen: CardSeen[] }> {
  const grey = await greyOf(pixels);
  return { grey, seen: await findCards(grey) };
}

async function readOne(photo: Buffer | string, input: PhotoInput, limits: PhotoLimits): Promise<PhotoRead> {
  const bytes = await load(photo, limits);
  const type = sniffPhoto(bytes);
  const { header, pixels } = await decode(bytes, type, limits);
  // The encoder works on a thread of its own while this thread looks.
  const [derivatives, { grey, seen }, tags] = await Promise.all([
    makeDerivatives(pixels),
    look(pixels),
    readTimeTags(header.exif),
  ]);
  const cards = seen.map(({ card }) => card);
  const card = agreedCard(cards);
  const turned = header.orientation >= 5;
  const facts: PhotoFacts = {
    sha256: createHash("sha256").update(bytes).digest("hex"),
    bytes: bytes.length,
    type,
    width: turned ? header.height : header.width,
    height: turned ? header.width : header.height,
    orientation: header.orientation,
    taken: takenAt(tags, { ...input, receivedAt: input.receivedAt ?? new Date().toISOString() }),
    fingerprint: fingerprintOf(grey),
    focus: Math.round(focusOf(grey) * 100) / 100,
    ...clippingOf(grey),
    ...(card ? { card } : {}),
  };
  return { facts, ...derivatives, cards };
}

/** A reader with its own limits; at most `atOnce` pictures are worked on, the others wait their turn. */
export function openPhotoReader(limits: Partial<PhotoLimits> = {}): PhotoReader {
  const all = { ...PHOTO_LIMITS, ...limits };
  const turn = pLimit(all.atOnce);
  return { read: (photo, input = {}) => turn(() => readOne(photo, input, all)) };
}

const shared = openPhotoReader();

/** Reads one picture with the usual limits. @throws PhotoError with a stable `code` */
export const readPhoto = (photo: Buffer | string, input: PhotoInput = {}): Promise<PhotoRead> => shared.read(photo, input);
