// Checks a data folder without changing it: the database itself, every chain, every blob.
import type Database from "better-sqlite3";
import { Blobs, hashFile } from "../blobs/blobs.ts";
import { dataPaths } from "../data-dir.ts";
import { ChainCheck, type ChainFault, type ChainRow } from "../store/chain.ts";
import { openDatabaseReadOnly } from "../store/sqlite/open.ts";

export interface BlobFault {
  readonly sha256: string;
  readonly code: "missing_blob" | "wrong_blob";
  readonly message: string;
}

export interface VerifyReport {
  readonly ok: boolean;
  readonly builds: readonly { build: string; events: number; head: string }[];
  readonly blobs: { readonly checked: number; readonly orphans: number };
  readonly faults: readonly (ChainFault | BlobFault | { code: "damaged_database"; message: string })[];
}

/** Re-hash everything under `dir`. Reads only; may run beside a server. */
export async function verifyData(dir: string): Promise<VerifyReport> {
  const paths = dataPaths(dir);
  const db = openDatabaseReadOnly(paths.database);
  try {
    return await verifyParts(db, new Blobs(paths.blobs));
  } finally {
    db.close();
  }
}

/** The same for a database that is open already and any folder of blobs. */
export async function verifyParts(db: Database.Database, blobs: Blobs): Promise<VerifyReport> {
  const integrity = db.pragma("integrity_check", { simple: true });
  const damaged: { code: "damaged_database"; message: string }[] =
    integrity === "ok"
      ? []
      : [{ code: "damaged_database", message: `Expected ok for the database's integrity check, got ${String(integrity)}` }];
  const checks = checkChains(db);
  const referred = new Set(db.prepare("SELECT DISTINCT sha256 FROM blob_ref").pluck().all() as string[]);
  const blobFaults = await checkBlobs(blobs, referred);
  let orphans = 0;
  for await (const name of blobs.names()) if (!referred.has(name)) orphans += 1;
  const faults = [...damaged, ...checks.flatMap((check) => check.faults), ...blobFaults];
  return {
    ok: faults.length === 0,
    builds: checks.map((check) => ({ build: check.build, events: check.seq, head: check.hash })),
    blobs: { checked: referred.size, orphans },
    faults,
  };
}

/** Rows are read one by one: a shop's whole life need not fit into memory. */
function checkChains(db: Database.Database): ChainCheck[] {
  const rows = db
    .prepare(`SELECT build, seq, id, body, prev_hash AS prevHash, hash, received_at AS receivedAt FROM event ORDER BY build, seq`)
    .iterate() as IterableIterator<ChainRow & { build: string }>;
  const checks: ChainCheck[] = [];
  for (const row of rows) {
    let check = checks.at(-1);
    if (check?.build !== row.build) {
      check = new ChainCheck(row.build);
      checks.push(check);
    }
    check.add(row);
  }
  return checks;
}

async function checkBlobs(blobs: Blobs, referred: ReadonlySet<string>): Promise<BlobFault[]> {
  const faults: BlobFault[] = [];
  for (const sha256 of referred) {
    const got = await hashFile(blobs.path(sha256)).catch(() => undefined);
    if (got === undefined) faults.push({ sha256, code: "missing_blob", message: `Expected a file for blob ${sha256}, got none` });
    else if (got !== sha256)
      faults.push({ sha256, code: "wrong_blob", message: `Expected ${sha256} for a blob's SHA-256, got ${got}` });
  }
  return faults;
}
