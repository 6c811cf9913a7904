// A data folder made from a backup. It takes its name only when it is whole and checked; nothing that is there is erased.
import { mkdir, readdir, rename, rm, stat } from "node:fs/promises";
import { dirname, join, resolve } from "node:path";
import { Blobs, hashFile } from "../blobs/blobs.ts";
import { dataPaths, holdFolder } from "../data-dir.ts";
import { sync } from "../disk.ts";
import { openSqliteSnapshot } from "../store/sqlite/snapshot.ts";
import { storageRefusal } from "../store/storage.ts";
import { copyBlobs, copyWhole, exists, freshBeside, inFolder } from "./copy-files.ts";
import type { Fault } from "./fault.ts";
import { type Manifest, MoveError, readManifest } from "./manifest.ts";
import { type PartsReport, type Progress, verifyParts } from "./verify.ts";

export interface RestoreOptions {
  /** Take the place of what is in the folder, which is kept beside it under another name. */
  readonly swap?: boolean;
  /** Take a backup whose manifest tells of faults, as it is. */
  readonly damaged?: boolean;
  readonly onProgress?: Progress;
}

export interface Restored {
  readonly manifest: Manifest;
  /** Where what was there before is kept. */
  readonly kept?: string;
}

/**
 * Make the data folder `dir` from the backup at `from`.
 * @throws MoveError when the backup is not as its manifest says, or `dir` holds anything and `swap` was not asked for;
 * DataInUse when a running shop has `dir`
 */
export async function restore(from: string, dir: string, options: RestoreOptions = {}): Promise<Restored> {
  const target = resolve(dir);
  const there = await contentsOf(target);
  if (there > 0 && options.swap !== true)
    throw new MoveError(
      `Expected an empty or new folder to restore into, got ${dir} with ${there} things in it: give another, or --swap to keep them aside`,
    );
  const manifest = await readManifest(from);
  if (manifest.faults.length > 0 && options.damaged !== true)
    throw new MoveError(
      `Expected a good backup, got one made with ${manifest.faults.length} faults (--damaged takes it as it is). ${manifest.faults[0]?.message ?? ""}`,
    );
  const partial = await freshBeside(target, "restoring");
  try {
    await fill(from, partial, manifest, options.onProgress);
    const kept = await takePlace(partial, target, there > 0);
    return { manifest, ...(kept === undefined ? {} : { kept }) };
  } catch (error) {
    await rm(partial, { recursive: true, force: true });
    throw storageRefusal(error) ?? error;
  }
}

async function contentsOf(dir: string): Promise<number> {
  const stats = await stat(dir).catch(() => undefined);
  if (stats === undefined) return 0;
  if (!stats.isDirectory()) throw new MoveError(`Expected a folder to restore into, got the file ${dir}`);
  return (await readdir(dir)).length;
}

async function fill(from: string, partial: string, manifest: Manifest, onProgress: Progress | undefined): Promise<void> {
  const source = dataPaths(from);
  const to = dataPaths(partial);
  await checkedCopy(source.database, to.database, manifest.database.sha256, "database");
  if (await exists(`${source.database}-wal`)) await copyWhole(`${source.database}-wal`, `${to.database}-wal`);
  for (const { path, sha256 } of manifest.files) {
    const target = inFolder(partial, path);
    await mkdir(dirname(target), { recursive: true, mode: 0o700 });
    await checkedCopy(inFolder(from, path), target, sha256, path);
    await sync(dirname(target));
  }
  const blobs = new Blobs(to.blobs);
  await mkdir(to.blobs, { recursive: true, mode: 0o700 });
  const names = manifest.blobs.map((blob) => blob.sha256);
  await copyBlobs(new Blobs(manifest.pooled ? join(dirname(resolve(from)), "blobs") : source.blobs), blobs, names, onProgress);
  compare(await report(to.database, blobs, manifest, onProgress), manifest);
  for (const folder of [to.blobs, partial]) await sync(folder);
}

async function checkedCopy(from: string, to: string, sha256: string, what: string): Promise<void> {
  const missing = () => new MoveError(`Expected the backup's ${what}, got none at ${from}`);
  await copyWhole(from, to).catch((error: NodeJS.ErrnoException) => {
    throw error.code === "ENOENT" ? missing() : error;
  });
  const got = await hashFile(to);
  if (got !== sha256) throw new MoveError(`Expected ${sha256} for the backup's ${what}, got ${got}`);
}

async function report(
  database: string,
  blobs: Blobs,
  manifest: Manifest,
  onProgress: Progress | undefined,
): Promise<PartsReport> {
  // The backup holds what could not be read as it was; there is nothing to look into then.
  const snapshot = manifest.faults.some((fault) => fault.code === "damaged_database") ? undefined : openSqliteSnapshot(database);
  return await verifyParts(snapshot, blobs, onProgress === undefined ? {} : { onProgress }).finally(() => snapshot?.close());
}

/** What the copy shows must be what the manifest tells, no more and no less. */
function compare(got: PartsReport, manifest: Manifest): void {
  const key = (fault: Fault) => `${fault.code} ${fault.message}`;
  const told = new Set(manifest.faults.map(key));
  const fresh = got.faults.find((fault) => !told.has(key(fault)));
  if (fresh !== undefined) throw new MoveError(`Expected the backup as it was made, got a fault since then. ${fresh.message}`);
  const heads = got.builds.map(({ build, events, head }) => ({ build, seq: events, hash: head }));
  if (JSON.stringify(heads) !== JSON.stringify(manifest.heads))
    throw new MoveError("Expected the manifest's heads for the backup's logs, got others");
}

/** Give `partial` the name `target`; gives where what was there is kept. */
async function takePlace(partial: string, target: string, occupied: boolean): Promise<string | undefined> {
  const parent = dirname(target);
  try {
    if (!occupied) {
      await rename(partial, target);
      return undefined;
    }
    // Held until it is out of the way: no shop starts on it in between.
    const lock = holdFolder(target);
    try {
      const aside = `${target}.before-${new Date().toISOString().replaceAll(":", "")}`;
      await rename(target, aside);
      await rename(partial, target);
      return aside;
    } finally {
      lock.close();
    }
  } catch (error) {
    if ((error as NodeJS.ErrnoException).code !== "EBUSY") throw error;
    throw new MoveError(
      `Expected a folder that can be renamed to restore into, got ${target}, where a disk is mounted: give a folder on it`,
    );
  } finally {
    await sync(parent);
  }
}
