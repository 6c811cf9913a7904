// A copy of the whole shop: the database as of one moment, every blob it rests on, and a manifest that anchors the heads.
import { copyFile, mkdir, open, readFile, rename, rm, stat, writeFile } from "node:fs/promises";
import { dirname, join } from "node:path";
import Database from "better-sqlite3";
import { z } from "zod";
import { sha256Schema } from "../../shared/events/events.ts";
import { Blobs, hashFile } from "../blobs/blobs.ts";
import { dataPaths } from "../data-dir.ts";
import { PlainError } from "../errors.ts";
import { openDatabaseReadOnly } from "../store/sqlite/open.ts";
import { VERSION } from "../version.ts";
import { verifyParts } from "./verify.ts";

export const MANIFEST = "manifest.json";

export const manifestSchema = z.strictObject({
  format: z.literal("thoubook-backup/1"),
  version: z.string(),
  madeAt: z.string(),
  database: z.strictObject({ sha256: sha256Schema, bytes: z.int().min(1) }),
  /** Number and hash of each build's last event: kept elsewhere, this tells a rewritten or shortened log. */
  heads: z.array(z.strictObject({ build: z.string(), seq: z.int().min(1), hash: sha256Schema })),
  blobs: z.array(z.strictObject({ sha256: sha256Schema, bytes: z.int().min(1) })),
});
export type Manifest = z.infer<typeof manifestSchema>;

/** A backup or a restore that cannot be done, with one plain sentence. */
export class MoveError extends PlainError {
  override readonly name = "MoveError";
}

/**
 * Write a backup of data folder `dir` as the new folder `out`. May run beside a server.
 * The folder gets its name only when it is whole and checked.
 * @throws MoveError when `out` exists or the copy does not verify
 */
export async function backup(dir: string, out: string): Promise<Manifest> {
  if (await exists(out)) throw new MoveError(`Expected a new folder for the backup, got ${out}, which exists`);
  const partial = `${out}.partial`;
  await rm(partial, { recursive: true, force: true });
  await mkdir(partial, { recursive: true, mode: 0o700 });
  try {
    const manifest = await fill(dir, partial);
    await writeFile(join(partial, MANIFEST), `${JSON.stringify(manifest, null, 2)}\n`);
    await syncAll([join(partial, MANIFEST), partial]);
    await rename(partial, out);
    await syncAll([dirname(out)]);
    return manifest;
  } catch (error) {
    await rm(partial, { recursive: true, force: true });
    throw error;
  }
}

async function fill(dir: string, partial: string): Promise<Manifest> {
  const from = dataPaths(dir);
  const to = dataPaths(partial);
  const source = openDatabaseReadOnly(from.database);
  try {
    await source.backup(to.database);
  } finally {
    source.close();
  }
  plainFile(to.database);
  await syncAll([to.database]);
  const copy = openDatabaseReadOnly(to.database);
  try {
    const names = copy.prepare("SELECT DISTINCT sha256 FROM blob_ref ORDER BY sha256").pluck().all() as string[];
    const blobs = await copyBlobs(new Blobs(from.blobs), new Blobs(to.blobs), names);
    const report = await verifyParts(copy, new Blobs(to.blobs));
    const fault = report.faults[0];
    if (fault !== undefined) throw new MoveError(`Expected a sound shop to back up, got a fault. ${fault.message}`);
    return {
      format: "thoubook-backup/1",
      version: VERSION,
      madeAt: new Date().toISOString(),
      database: { sha256: await hashFile(to.database), bytes: (await stat(to.database)).size },
      heads: report.builds.map(({ build, events, head }) => ({ build, seq: events, hash: head })),
      blobs,
    };
  } finally {
    copy.close();
  }
}

/** A backup is one file: no journal beside it that a later copy might leave behind. */
function plainFile(path: string): void {
  const db = new Database(path);
  db.pragma("journal_mode = DELETE");
  db.close();
}

async function copyBlobs(from: Blobs, to: Blobs, names: readonly string[]): Promise<Manifest["blobs"]> {
  const copied: Manifest["blobs"] = [];
  for (const sha256 of names) {
    const bytes = await from.size(sha256);
    if (bytes === undefined) throw new MoveError(`Expected a file for blob ${sha256}, got none: run verify`);
    await mkdir(dirname(to.path(sha256)), { recursive: true });
    await copyFile(from.path(sha256), to.path(sha256));
    await syncAll([to.path(sha256)]);
    copied.push({ sha256, bytes });
  }
  return copied;
}

/**
 * Check the backup at `from` wholly, then make the data folder `dir` from it.
 * @throws MoveError when the backup does not verify or `dir` holds a shop already
 */
export async function restore(from: string, dir: string): Promise<Manifest> {
  if (await exists(dataPaths(dir).database))
    throw new MoveError(`Expected a folder without a shop to restore into, got ${dir}, which has one`);
  const manifest = await checkBackup(from);
  const partial = `${dir}.partial`;
  await rm(partial, { recursive: true, force: true });
  await mkdir(partial, { recursive: true, mode: 0o700 });
  try {
    const to = dataPaths(partial);
    await copyFile(dataPaths(from).database, to.database);
    await syncAll([to.database]);
    await copyBlobs(
      new Blobs(dataPaths(from).blobs),
      new Blobs(to.blobs),
      manifest.blobs.map((blob) => blob.sha256),
    );
    const copy = openDatabaseReadOnly(to.database);
    const report = await verifyParts(copy, new Blobs(to.blobs)).finally(() => copy.close());
    if (!report.ok) throw new MoveError(`Expected a sound copy of the backup, got a fault. ${report.faults[0]?.message ?? ""}`);
    await rm(dir, { recursive: true, force: true });
    await rename(partial, dir);
    return manifest;
  } catch (error) {
    await rm(partial, { recursive: true, force: true });
    throw error;
  }
}

/** @throws MoveError telling the first thing that does not hold */
async function checkBackup(from: string): Promise<Manifest> {
  const text = await readFile(join(from, MANIFEST), "utf8").catch(() => undefined);
  if (text === undefined) throw new MoveError(`Expected a backup's ${MANIFEST} in ${from}, got none`);
  const parsed = manifestSchema.safeParse(parseJson(text));
  if (!parsed.success) throw new MoveError(`Expected a backup's manifest in ${from}, got another file`);
  const manifest = parsed.data;
  const paths = dataPaths(from);
  const got = await hashFile(paths.database).catch(() => "none");
  if (got !== manifest.database.sha256)
    throw new MoveError(`Expected ${manifest.database.sha256} for the backup's database, got ${got}`);
  const db = openDatabaseReadOnly(paths.database);
  const report = await verifyParts(db, new Blobs(paths.blobs)).finally(() => db.close());
  if (!report.ok) throw new MoveError(`Expected a sound backup, got a fault. ${report.faults[0]?.message ?? ""}`);
  const heads = report.builds.map(({ build, events, head }) => ({ build, seq: events, hash: head }));
  if (JSON.stringify(heads) !== JSON.stringify(manifest.heads))
    throw new MoveError("Expected the manifest's heads for the backup's logs, got others");
  return manifest;
}

function parseJson(text: string): unknown {
  try {
    return JSON.parse(text);
  } catch {
    return undefined;
  }
}

async function exists(path: string): Promise<boolean> {
  return (await stat(path).catch(() => undefined)) !== undefined;
}

async function syncAll(paths: readonly string[]): Promise<void> {
  for (const path of paths) {
    const handle = await open(path, "r");
    await handle.sync().finally(() => handle.close());
  }
}
