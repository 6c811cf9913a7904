// Copying files and blobs so that a power cut leaves them whole: to a name of their own, synced, then renamed.
import { randomUUID } from "node:crypto";
import { constants, copyFile, mkdir, rename, rm, stat } from "node:fs/promises";
import { dirname, join } from "node:path";
import type { Blobs } from "../blobs/blobs.ts";
import { sync } from "../disk.ts";
import type { Progress } from "./verify.ts";

/** Copy a file; one of this name is replaced by the whole copy. */
export async function copyWhole(from: string, to: string, temporary = `${to}.${randomUUID()}.part`): Promise<void> {
  try {
    await copyFile(from, temporary, constants.COPYFILE_FICLONE);
    await sync(temporary);
    await rename(temporary, to);
  } catch (error) {
    await rm(temporary, { force: true });
    throw error;
  }
}

/** Copy one blob as it is, damaged or not. */
export async function copyBlob(from: Blobs, to: Blobs, sha256: string): Promise<void> {
  const target = to.path(sha256);
  await mkdir(dirname(target), { recursive: true, mode: 0o700 });
  await copyWhole(from.path(sha256), target);
}

/**
 * Copy the blobs of these names that `to` lacks or has at another size; those that are nowhere are left out.
 * Gives all that are in `to` then, with their sizes.
 */
export async function copyBlobs(
  from: Blobs,
  to: Blobs,
  names: readonly string[],
  onProgress?: Progress,
): Promise<{ sha256: string; bytes: number }[]> {
  const held: { sha256: string; bytes: number }[] = [];
  let done = 0;
  for (const sha256 of names) {
    const bytes = await from.size(sha256);
    if (bytes !== undefined && (await to.size(sha256)) !== bytes) await copyBlob(from, to, sha256);
    const got = await to.size(sha256);
    if (got !== undefined) held.push({ sha256, bytes: got });
    done += 1;
    onProgress?.("copied clips and photos", done, names.length);
  }
  const folders = new Set(held.map(({ sha256 }) => dirname(to.path(sha256))));
  for (const folder of folders) await sync(folder);
  if (folders.size > 0) await sync(to.dir);
  return held;
}

export async function exists(path: string): Promise<boolean> {
  return (await stat(path).catch(() => undefined)) !== undefined;
}

/** A new folder beside `path` that nobody else has: what is in it is this process's alone. */
export async function freshBeside(path: string, what: string): Promise<string> {
  const folder = `${path}.${what}-${randomUUID().slice(0, 8)}`;
  await mkdir(dirname(path), { recursive: true });
  await mkdir(folder, { mode: 0o700 });
  return folder;
}

export const inFolder = (folder: string, path: string) => join(folder, ...path.split("/"));
