// A copy of the whole shop: the database as of one moment, every clip and photo, the shop's id and keys, and a manifest
// that anchors the heads. Damage does not stop it: what can be copied is copied, and the manifest tells what is wrong.
import { mkdir, readdir, rename, rm, stat } from "node:fs/promises";
import { dirname, join, relative, resolve } from "node:path";
import { Blobs, hashFile } from "../blobs/blobs.ts";
import { dataPaths } from "../data-dir.ts";
import { sync } from "../disk.ts";
import { readIdentity } from "../identity.ts";
import type { Snapshot } from "../store/log-reader.ts";
import { DamagedDatabase } from "../store/sqlite/damage.ts";
import { copySqliteDatabase, openSqliteSnapshot } from "../store/sqlite/snapshot.ts";
import { storageRefusal } from "../store/storage.ts";
import { VERSION } from "../version.ts";
import { noteBackup } from "./backup-log.ts";
import { copyBlob, copyBlobs, copyWhole, exists, freshBeside, inFolder } from "./copy-files.ts";
import type { Fault } from "./fault.ts";
import { type Manifest, MoveError, writeManifest } from "./manifest.ts";
import { type PartsReport, type Progress, verifyParts } from "./verify.ts";

export interface BackupOptions {
  /** Leave the private keys of the shop's door out. */
  readonly withoutKeys?: boolean;
  readonly onProgress?: Progress;
}

/**
 * Write a backup of data folder `dir` as the new folder `out`. May run beside a server.
 * The folder gets its name only when it is whole and checked; the manifest's `faults` tell what was wrong with the shop.
 * @throws MoveError when `out` exists
 */
export async function backup(dir: string, out: string, options: BackupOptions = {}): Promise<Manifest> {
  return await make(dir, out, undefined, options);
}

/**
 * Add a backup to a folder of backups, named by its time. Clips and photos are kept once for all of them,
 * so that only new ones are copied; those there are checked each time, and one that has rotted is copied anew.
 */
export async function backupInto(dir: string, place: string, options: BackupOptions = {}, now = new Date()): Promise<Manifest> {
  const name = `${now.toISOString().slice(0, 19).replaceAll(":", "")}Z`;
  return await make(dir, join(place, name), join(place, "blobs"), options);
}

async function make(dir: string, to: string, pool: string | undefined, options: BackupOptions): Promise<Manifest> {
  const out = resolve(to);
  if (await exists(out)) throw new MoveError(`Expected a new folder for the backup, got ${out}, which exists`);
  const partial = await freshBeside(out, "partial");
  try {
    const manifest = await fill(dir, partial, pool, options);
    await writeManifest(partial, manifest);
    await rename(partial, out);
    await sync(dirname(out));
    await noteBackup(dir, { at: manifest.madeAt, to: out, faults: manifest.faults.length });
    return manifest;
  } catch (error) {
    await rm(partial, { recursive: true, force: true });
    throw storageRefusal(error) ?? error;
  }
}

async function fill(dir: string, partial: string, pool: string | undefined, options: BackupOptions): Promise<Manifest> {
  const { onProgress } = options;
  const from = dataPaths(dir);
  const to = dataPaths(partial);
  const shop = { from: new Blobs(from.blobs), to: new Blobs(pool ?? to.blobs) };
  const broken = await copyDatabase(from.database, to.database);
  // Listed after the moment of the copy: what its entries name is there by then.
  const names: string[] = [];
  for await (const name of shop.from.names()) names.push(name);
  await mkdir(shop.to.dir, { recursive: true, mode: 0o700 });
  const blobs = await copyBlobs(shop.from, shop.to, names, onProgress);
  const report = await check(to.database, shop, broken, onProgress);
  return {
    format: "thoubook-backup/2",
    version: VERSION,
    madeAt: new Date().toISOString(),
    database: { sha256: await hashFile(to.database), bytes: (await stat(to.database)).size },
    heads: report.builds.map(({ build, events, head }) => ({ build, seq: events, hash: head })),
    blobs,
    files: await copyOthers(from, partial, options.withoutKeys === true),
    keys: (await filesIn(from.lan)).length === 0 ? "none" : options.withoutKeys === true ? "left_out" : "kept",
    pooled: pool !== undefined,
    faults: [...broken, ...(await damagedId(from.identity)), ...report.faults],
  };
}

/** A database that SQLite cannot read is copied byte for byte, with its journal: somebody may get something out of it. */
async function copyDatabase(from: string, to: string): Promise<Fault[]> {
  try {
    await copySqliteDatabase(from, to);
    await sync(to);
    return [];
  } catch (error) {
    if (!(error instanceof DamagedDatabase)) throw error;
    if (!(await exists(from))) throw new MoveError(`Expected a shop's database to back up, got none at ${from}`);
    await copyWhole(from, to);
    if (await exists(`${from}-wal`)) await copyWhole(`${from}-wal`, `${to}-wal`);
    return [{ code: "damaged_database", message: error.message }];
  }
}

/** Check the copy. A blob that rotted in a pool of earlier backups is copied anew and checked again. */
async function check(
  database: string,
  shop: { from: Blobs; to: Blobs },
  broken: Fault[],
  onProgress: Progress | undefined,
): Promise<PartsReport> {
  const snapshot = broken.length > 0 ? undefined : openCopy(database, broken);
  try {
    const report = await verifyParts(snapshot, shop.to, onProgress === undefined ? {} : { onProgress });
    const faults: Fault[] = [];
    for (const fault of report.faults) if (!(await mended(fault, shop))) faults.push(fault);
    return { ...report, faults };
  } finally {
    await snapshot?.close();
  }
}

/** Pages may be copied that make no database: that is one more fault of the shop. */
function openCopy(database: string, broken: Fault[]): Snapshot | undefined {
  try {
    return openSqliteSnapshot(database);
  } catch (error) {
    if (!(error instanceof DamagedDatabase)) throw error;
    broken.push({ code: "damaged_database", message: error.message });
    return undefined;
  }
}

async function mended({ code, sha256 }: Fault, { from, to }: { from: Blobs; to: Blobs }): Promise<boolean> {
  if (code !== "wrong_blob" || sha256 === undefined) return false;
  const sound = (blobs: Blobs) =>
    hashFile(blobs.path(sha256)).then(
      (got) => got === sha256,
      () => false,
    );
  if (!(await sound(from))) return false;
  await copyBlob(from, to, sha256);
  return await sound(to);
}

/** The shop's id, and the keys of its door with what belongs to them. */
async function copyOthers(from: ReturnType<typeof dataPaths>, partial: string, withoutKeys: boolean): Promise<Manifest["files"]> {
  const root = dirname(from.database);
  const paths = [
    ...((await exists(from.identity)) ? [from.identity] : []),
    ...(withoutKeys ? [] : (await filesIn(from.lan)).map((name) => join(from.lan, name))),
  ];
  const copied: Manifest["files"] = [];
  for (const source of paths) {
    const path = relative(root, source).split("\\").join("/");
    const target = inFolder(partial, path);
    await mkdir(dirname(target), { recursive: true, mode: 0o700 });
    await copyWhole(source, target);
    await sync(dirname(target));
    copied.push({ path, sha256: await hashFile(target), bytes: (await stat(target)).size });
  }
  return copied;
}

async function filesIn(folder: string): Promise<string[]> {
  const entries = await readdir(folder, { withFileTypes: true }).catch(() => []);
  return entries
    .filter((entry) => entry.isFile() && !entry.name.endsWith(".part"))
    .map((entry) => entry.name)
    .sort();
}

async function damagedId(path: string): Promise<Fault[]> {
  return await readIdentity(path).then(
    () => [],
    (error: Error): Fault[] => [{ code: "damaged_file", message: error.message }],
  );
}
