// What waits on this device as one file, with the sounds and pictures it rests on, to be carried to the shop by hand: one line of
// JSON that says what follows, then the bytes of each sound and picture in that order.
import { z } from "zod";
import { eventSchema, sha256Schema } from "../../shared/events/events.ts";
import { markedAs } from "./memory-keep.ts";
import { type Blobs, blobsOfParcel, type Keep, type Parcel } from "./parcel.ts";
import { sha256Hex } from "./sha256.ts";

const wrapping = { id: z.uuid(), build: z.uuid(), at: z.string() };
/** Why a parcel did not go is no matter to who takes it in. */
const parcelSchema = z.discriminatedUnion("kind", [
  z.object({ kind: z.literal("event"), ...wrapping, event: eventSchema }),
  z.object({
    kind: z.literal("photo"),
    ...wrapping,
    sha256: sha256Schema,
    type: z.string(),
    fields: z.record(z.string(), z.string()),
  }),
]);
const headSchema = z.object({
  format: z.literal("thoubook-unsent/2"),
  parcels: z.array(parcelSchema),
  blobs: z.array(z.object({ sha256: sha256Schema, bytes: z.int().min(1) })),
});

/** Longest first line that is read: 100,000 entries and more. */
const LONGEST_HEAD = 256 * 1024 * 1024;

/** The file of these parcels. A sound or picture that is no longer on this device is left out; the shop may have it. */
export async function asFile(parcels: readonly Parcel[], keep: Keep): Promise<Blob> {
  const blobs: { sha256: string; bytes: number }[] = [];
  const parts: Blob[] = [];
  for (const sha256 of new Set(parcels.flatMap(blobsOfParcel))) {
    const bytes = await keep.blob(sha256);
    if (bytes === undefined) continue;
    blobs.push({ sha256, bytes: bytes.length });
    // A blob of its own each: the browser may keep it on disk, all of them together would fill its memory.
    parts.push(new Blob([bytes]));
  }
  const head = { format: "thoubook-unsent/2", parcels: parcels.map((parcel) => markedAs(parcel, undefined)), blobs };
  return new Blob([`${JSON.stringify(head)}\n`, ...parts], { type: "application/octet-stream" });
}

/**
 * Read a file of parcels, each sound and picture checked against its name.
 * @throws RangeError with a sentence for a person when it is no such file, or not whole
 */
export async function readCarried(file: Blob): Promise<{ parcels: Parcel[]; blobs: Blobs }> {
  const end = await firstLine(file);
  const head = headSchema.safeParse(jsonOf(await file.slice(0, end).text()));
  if (!head.success) throw new RangeError("Expected a file of unsent entries, got another file or a damaged one");
  const blobs: Record<string, Uint8Array<ArrayBuffer>> = {};
  let at = end + 1;
  for (const { sha256, bytes } of head.data.blobs) {
    const content = new Uint8Array(await file.slice(at, at + bytes).arrayBuffer());
    at += bytes;
    if ((await sha256Hex(content)) !== sha256)
      throw new RangeError("Expected every sound and picture of the file whole, got one that is cut off or changed");
    blobs[sha256] = content;
  }
  return { parcels: head.data.parcels as Parcel[], blobs };
}

function jsonOf(text: string): unknown {
  try {
    return JSON.parse(text);
  } catch {
    return undefined;
  }
}

/** Where the first line ends; the file's end where there is no line. */
async function firstLine(file: Blob): Promise<number> {
  const step = 1024 * 1024;
  for (let at = 0; at < Math.min(file.size, LONGEST_HEAD); at += step) {
    const piece = new Uint8Array(await file.slice(at, at + step).arrayBuffer());
    const found = piece.indexOf(10);
    if (found >= 0) return at + found;
  }
  return Math.min(file.size, LONGEST_HEAD);
}
