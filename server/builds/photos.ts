// Photos for a build's log: all looked at before any is kept, originals kept as they came, filed and logged.
import type { z } from "zod";
import { logPhoto } from "../../extractors/bench/index.ts";
import type { PhotoRead } from "../../extractors/photo/index.ts";
import type { photoFieldsSchema } from "../../shared/api/entries.ts";
import type { StagedBlob } from "../blobs/blobs.ts";
import type { Deps } from "../deps.ts";
import { storePictures } from "../photos/pictures.ts";
import type { StoredRow } from "../store/store.ts";
import { logEvents } from "./log.ts";
import { makeStamp } from "./stamp.ts";
import { loggedBefore } from "./utterance.ts";
import type { Who } from "./who.ts";

export type PhotoFields = z.infer<typeof photoFieldsSchema>;

/**
 * Log photos. Sent again under the same id they are answered from the log.
 * @throws PhotoError for a picture that is refused; nothing of the request is kept then
 */
export async function logPhotos(
  deps: Deps,
  build: string,
  blobs: readonly StagedBlob[],
  fields: PhotoFields,
  who: Who,
): Promise<StoredRow[]> {
  const first = blobs[0];
  const same = (sha256: string | undefined) => sha256 === first?.sha256;
  const before = await loggedBefore(
    deps,
    build,
    fields.id,
    (event) => event.type === "photo.taken" && same(event.data.photo.sha256),
  );
  if (before !== undefined) return before;
  const receivedAt = new Date().toISOString();
  const reads: PhotoRead[] = [];
  for (const blob of blobs)
    reads.push(await deps.photos.read(blob.path, { shutter: fields.shutter, sent: fields.sent, receivedAt }));
  who.stillIn();
  for (const blob of blobs) await blob.keep();
  for (const read of reads) await storePictures(deps.derivedDir, read);
  return deps.builds.use(build, async ({ build: folded }) => {
    const stamp = await makeStamp(deps.store, build, fields, who);
    return logEvents(
      deps,
      reads.flatMap(({ facts }) => logPhoto({ photo: facts, said: fields, build: folded, stamp })),
      who,
    );
  });
}
