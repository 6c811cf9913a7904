// Clips and photos that no entry names: told, and put aside when the owner says so. Nothing is ever deleted.
import { mkdir, rename, stat } from "node:fs/promises";
import { dirname, join } from "node:path";
import type { Blobs } from "../blobs/blobs.ts";
import { dataPaths, type ShopData } from "../data-dir.ts";
import { sync } from "../disk.ts";
import { PlainError } from "../errors.ts";
import { openSqliteSnapshot } from "../store/sqlite/snapshot.ts";
import { checkLog } from "./check-log.ts";

const DAY_MS = 86_400_000;
/** So many orphans are nothing odd however little is named. */
const FEW = 10;

export interface Collected {
  /** Files that no entry names, older than a day: a younger one may be waiting for its entry. */
  readonly orphans: number;
  readonly bytes: number;
  readonly putAside: number;
  /** Folder they were moved into. */
  readonly to?: string;
}

export interface CollectOptions {
  /** Put them aside if there are just so many. */
  readonly putAside?: number;
  readonly graceMs?: number;
}

/**
 * Look for orphans, and move them into quarantine when `putAside` says their number.
 * @throws PlainError when the logs look empty, damaged or shrunken, so that what they name cannot be told
 */
export async function collect({ dir, blobs }: ShopData, options: CollectOptions = {}): Promise<Collected> {
  const paths = dataPaths(dir);
  const named = await namedBlobs(paths.database);
  const orphans = await orphansOf(blobs, named, options.graceMs ?? DAY_MS);
  const bytes = orphans.reduce((sum, orphan) => sum + orphan.bytes, 0);
  if (orphans.length > Math.max(FEW, named.size))
    throw new PlainError(
      `Expected fewer clips and photos that no entry names than the ${named.size} that are named, got ${orphans.length}: the logs look shrunken, and nothing was put aside`,
    );
  const { putAside } = options;
  if (putAside === undefined || orphans.length === 0) return { orphans: orphans.length, bytes, putAside: 0 };
  if (putAside !== orphans.length)
    throw new PlainError(`Expected ${orphans.length}, the number of orphans there are, for --put-aside, got ${putAside}`);
  const to = join(paths.quarantine, new Date().toISOString().replaceAll(":", ""));
  await mkdir(to, { recursive: true, mode: 0o700 });
  for (const { name } of orphans) await rename(blobs.path(name), join(to, name));
  for (const folder of new Set([to, dirname(to), ...orphans.map(({ name }) => dirname(blobs.path(name)))])) await sync(folder);
  return { orphans: orphans.length, bytes, putAside, to };
}

/** What the hashed entries name, from logs that hold. */
async function namedBlobs(database: string): Promise<ReadonlySet<string>> {
  const snapshot = openSqliteSnapshot(database);
  const report = await checkLog(snapshot).finally(() => snapshot.close());
  const fault = report.faults[0];
  if (fault !== undefined)
    throw new PlainError(`Expected sound logs to tell orphans by, got a fault, and nothing was put aside. ${fault.message}`);
  if (report.builds.length === 0)
    throw new PlainError("Expected entries to tell orphans by, got empty logs: nothing was put aside");
  return new Set(report.blobs.keys());
}

async function orphansOf(blobs: Blobs, named: ReadonlySet<string>, graceMs: number): Promise<{ name: string; bytes: number }[]> {
  const orphans: { name: string; bytes: number }[] = [];
  for await (const name of blobs.names()) {
    if (named.has(name)) continue;
    const { mtimeMs, size } = await stat(blobs.path(name));
    if (Date.now() - mtimeMs >= graceMs) orphans.push({ name, bytes: size });
  }
  return orphans;
}
