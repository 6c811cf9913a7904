// What devices send as raw bytes and then name in an event must be what the event says it is, before it counts as proof.
import { open, readFile } from "node:fs/promises";
import { readWav } from "../../extractors/hearing/audio/wav.ts";
import { sniffPhoto } from "../../extractors/photo/index.ts";
import type { BenchEvent } from "../../shared/events/events.ts";
import type { Deps } from "../deps.ts";
import { expected, ServiceError } from "../errors.ts";
import { blobsOf } from "../store/blob-refs.ts";

const HEAD_BYTES = 256;

/**
 * Check the blobs of events that a device made. Those the log rests on in the same way already were checked before.
 * @throws ServiceError `blob_missing`, `wrong_type`; HearingError or PhotoError for what is no clip or no picture
 */
export async function checkBlobs(deps: Deps, events: readonly BenchEvent[]): Promise<void> {
  for (const event of events)
    for (const { sha256, kind } of blobsOf(event)) {
      const size = await deps.blobs.size(sha256);
      if (size === undefined)
        throw new ServiceError("blob_missing", expected(`the ${kind} ${sha256} to be sent first`, `event ${event.id}`, "none"));
      const ref = await deps.store.blobRef(sha256);
      if (ref?.kind === kind) continue;
      if (kind === "clip") readWav(await readFile(deps.blobs.path(sha256)));
      else if (event.type === "photo.taken") await checkPhoto(deps, event.data.photo, size);
    }
}

async function checkPhoto(deps: Deps, photo: { sha256: string; type: string; bytes: number }, size: number): Promise<void> {
  const type = sniffPhoto(await headOf(deps.blobs.path(photo.sha256)));
  if (type !== photo.type) throw new ServiceError("wrong_type", expected(photo.type, "the photo's bytes", type));
  if (size !== photo.bytes)
    throw new ServiceError("invalid_event", expected(`${size} bytes`, "the photo's size", `${photo.bytes}`));
}

async function headOf(path: string): Promise<Uint8Array> {
  const file = await open(path, "r");
  try {
    const { buffer, bytesRead } = await file.read(Buffer.alloc(HEAD_BYTES), 0, HEAD_BYTES, 0);
    return buffer.subarray(0, bytesRead);
  } finally {
    await file.close();
  }
}
