// The shop's data folder: the database, the blobs, derived pictures, and a lock that dies with the process that holds it.
import { mkdirSync } from "node:fs";
import { join } from "node:path";
import Database from "better-sqlite3";
import { Blobs } from "./blobs/blobs.ts";
import { PlainError } from "./errors.ts";
import { makeIdentity, readIdentity } from "./identity.ts";
import type { SqlStore } from "./store/sql-store.ts";
import { openSqliteStore } from "./store/sqlite/index.ts";

export const DEFAULT_DATA_DIR = "data";
const DAY_MS = 86_400_000;

/** Where things lie in a data folder. */
export const dataPaths = (dir: string) => ({
  database: join(dir, "thoubook.db"),
  blobs: join(dir, "blobs"),
  derived: join(dir, "derived"),
  lock: join(dir, "lock.db"),
  lan: join(dir, "lan"),
  identity: join(dir, "shop.json"),
});

/** The folder is in use by another process. */
export class DataInUse extends PlainError {
  override readonly name = "DataInUse";
  constructor(dir: string) {
    super(`Expected ${dir} to be free for this process, got one that a running thoubook holds: stop it first`);
  }
}

export interface ShopData {
  readonly dir: string;
  /** The shop's id, the same for as long as the folder lives. */
  readonly shop: string;
  readonly store: SqlStore;
  readonly blobs: Blobs;
  /** What the start cleared away. */
  readonly swept: { readonly partial: number; readonly orphans: number };
  close(): Promise<void>;
}

/**
 * Open a data folder for writing, making it where there is none, and clear what a crash left in it.
 * @throws DataInUse when another process has it
 */
export async function openShopData(dir: string, options: { graceMs?: number; now?: () => string } = {}): Promise<ShopData> {
  const paths = dataPaths(dir);
  mkdirSync(dir, { recursive: true, mode: 0o700 });
  const lock = takeLock(dir, paths.lock);
  try {
    const shop = (await readIdentity(paths.identity)) ?? (await makeIdentity(paths.identity));
    const store = openSqliteStore(paths.database, options.now);
    const blobs = new Blobs(paths.blobs);
    await blobs.prepare();
    const referred = new Set((await store.blobRefs()).map((ref) => ref.sha256));
    const swept = await blobs.sweep(referred, options.graceMs ?? DAY_MS);
    const close = async () => {
      await store.close();
      lock.close();
    };
    return { dir, shop, store, blobs, swept, close };
  } catch (error) {
    lock.close();
    throw error;
  }
}

/** An open exclusive transaction on a file of its own: the system lets go of it when the process ends, however it ends. */
function takeLock(dir: string, path: string): Database.Database {
  const lock = new Database(path);
  try {
    lock.pragma("busy_timeout = 0");
    lock.exec("BEGIN EXCLUSIVE");
    return lock;
  } catch (error) {
    lock.close();
    if ((error as { code?: string }).code === "SQLITE_BUSY") throw new DataInUse(dir);
    throw error;
  }
}
