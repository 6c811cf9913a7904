// Derived pictures of photos: small and large WebP copies without metadata, kept in a folder that may be emptied.
import { randomUUID } from "node:crypto";
import { mkdir, readFile, rename, writeFile } from "node:fs/promises";
import { join } from "node:path";
import type { PhotoRead } from "../../extractors/photo/index.ts";
import type { Deps } from "../deps.ts";
import { expected, ServiceError } from "../errors.ts";

export const PICTURES = ["thumb", "full"] as const;
export type Picture = (typeof PICTURES)[number];

const fileOf = (dir: string, sha256: string, size: Picture) => join(dir, `${sha256}-${size}.webp`);

/** Keep both copies beside each other; a half-written one never has the name. */
export async function storePictures(dir: string, read: PhotoRead): Promise<void> {
  await mkdir(dir, { recursive: true });
  for (const size of PICTURES) {
    const temporary = join(dir, `${randomUUID()}.part`);
    await writeFile(temporary, read[size]);
    await rename(temporary, fileOf(dir, read.facts.sha256, size));
  }
}

/**
 * A derived picture of a photo that an event rests on, made anew where it is not kept.
 * @throws ServiceError `unknown_blob`
 */
export async function pictureOf(deps: Deps, sha256: string, size: Picture): Promise<Buffer> {
  const ref = await deps.store.blobRef(sha256);
  if (ref?.kind !== "photo") throw new ServiceError("unknown_blob", expected("a photo of this shop", "sha256", sha256));
  const kept = await readFile(fileOf(deps.derivedDir, sha256, size)).catch(() => undefined);
  if (kept !== undefined) return kept;
  await deps.blobs.assertSound(sha256);
  const read = await deps.photos.read(deps.blobs.path(sha256));
  await storePictures(deps.derivedDir, read);
  return read[size];
}
