// The shop's data folder: the database, the blobs, derived pictures, and a lock that dies with the process that holds it.
import { accessSync, constants, existsSync, mkdirSync, statSync } from "node:fs";
import { readdir } from "node:fs/promises";
import { join, parse, resolve } from "node:path";
import Database from "better-sqlite3";
import { Blobs } from "./blobs/blobs.ts";
import { PlainError } from "./errors.ts";
import { makeIdentity, readIdentity } from "./identity.ts";
import { Reserve } from "./store/reserve.ts";
import type { SqlStore } from "./store/sql-store.ts";
import { damageOf } from "./store/sqlite/damage.ts";
import { openSqliteStore } from "./store/sqlite/index.ts";
import { storageRefusal } from "./store/storage.ts";
import { readWitness, Witness, type Witnessed } from "./store/witness.ts";

export const DEFAULT_DATA_DIR = "data";
const WITNESS_EVERY_MS = 2000;

/** Where things lie in a data folder. */
export const dataPaths = (dir: string) => ({
  database: join(dir, "thoubook.db"),
  blobs: join(dir, "blobs"),
  derived: join(dir, "derived"),
  lock: join(dir, "lock.db"),
  lan: join(dir, "lan"),
  identity: join(dir, "shop.json"),
  witness: join(dir, "heads.json"),
  backups: join(dir, "backups.json"),
  reserve: join(dir, "reserve"),
  quarantine: join(dir, "quarantine"),
});
type DataPaths = ReturnType<typeof dataPaths>;

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
  /** Room that is kept for what must be written on a full disk. */
  readonly reserve: Reserve;
  /** How many half-written files a crash had left; they are cleared away, and nothing else is. */
  readonly cleared: number;
  close(): Promise<void>;
}

export interface DataOptions {
  /** The clock of receipt. */
  readonly now?: () => string;
  /** Go on from a log that has lost entries, as the owner has said. */
  readonly asIs?: boolean;
}

/**
 * Open a data folder for writing, making it where there is none.
 * @throws DataInUse when another process has it; PlainError when its database is gone, damaged, or has lost entries
 */
export async function openShopData(dir: string, options: DataOptions = {}): Promise<ShopData> {
  const paths = dataPaths(dir);
  await assertNotMidSwap(dir);
  makeWritable(dir);
  const lock = holdFolder(dir);
  let store: SqlStore | undefined;
  try {
    await assertDatabaseThere(dir, paths);
    const witnessed = await readWitness(paths.witness);
    let witness: Witness | undefined;
    store = openSqliteStore(paths.database, {
      ...(options.now === undefined ? {} : { now: options.now }),
      onGrown: (head) => witness?.saw(head),
    });
    if (options.asIs !== true) await assertWhole(store, witnessed);
    witness = new Witness(paths.witness, await store.heads());
    const reserve = new Reserve(paths.reserve);
    const shop = (await readIdentity(paths.identity)) ?? (await makeIdentity(paths.identity));
    const blobs = new Blobs(paths.blobs);
    await blobs.prepare();
    const cleared = await blobs.clearIncoming();
    await takeBack(paths, blobs, store);
    // Last: a shop that is refused leaves nothing behind that goes on writing.
    const noting = await keepNoting(witness, reserve);
    return { dir, shop, store, blobs, reserve, cleared, close: closer(store, lock, noting) };
  } catch (error) {
    await store?.close();
    lock.close();
    throw error;
  }
}

/** Take part in a shop that another process holds: its database takes several writers, and nothing is cleared. */
export async function joinShopData(dir: string): Promise<ShopData> {
  const paths = dataPaths(dir);
  const shop = await readIdentity(paths.identity);
  if (shop === undefined) throw new PlainError(`Expected a shop in ${dir}, got none`);
  const store = openSqliteStore(paths.database);
  return {
    dir,
    shop,
    store,
    blobs: new Blobs(paths.blobs),
    reserve: new Reserve(paths.reserve),
    cleared: 0,
    close: () => store.close(),
  };
}

function closer(store: SqlStore, lock: Database.Database, stopNoting: () => Promise<void>) {
  return async () => {
    await stopNoting();
    await store.close();
    lock.close();
  };
}

/** Noted once when this is done, then by the clock. The note is a help for checks: a disk that has no room for it does not stop the shop. */
async function keepNoting(witness: Witness, reserve: Reserve): Promise<() => Promise<void>> {
  const note = async () => {
    await witness.flush().catch(() => undefined);
    await reserve.hold();
  };
  await note();
  const timer = setInterval(note, WITNESS_EVERY_MS).unref();
  return async () => {
    clearInterval(timer);
    await note();
  };
}

function makeWritable(dir: string): void {
  try {
    mkdirSync(dir, { recursive: true, mode: 0o700 });
    accessSync(dir, constants.W_OK);
  } catch (error) {
    throw storageRefusal(error) ?? error;
  }
}

/** A restore that was cut off between its two renames has left a whole shop under another name. */
async function assertNotMidSwap(dir: string): Promise<void> {
  if (existsSync(dir)) return;
  const { base, dir: parent } = parse(resolve(dir));
  const left = (await readdir(parent).catch(() => [])).filter((name) => name.startsWith(`${base}.before-`));
  if (left.length === 0) return;
  throw new PlainError(
    `Expected a shop in ${dir}, got none beside ${left.join(", ")}, which a restore had put aside: restore again, or give that folder its name back`,
  );
}

/** A folder that held a shop is not given a new, empty database: what is beside it would be taken for nobody's. */
async function assertDatabaseThere(dir: string, paths: DataPaths): Promise<void> {
  if ((statSync(paths.database, { throwIfNoEntry: false })?.size ?? 0) > 0) return;
  const left = [paths.identity, paths.witness].filter((path) => existsSync(path));
  const blobs = await countBlobs(paths.blobs);
  if (left.length === 0 && blobs === 0) return;
  throw new PlainError(
    `Expected the shop's database in ${dir}, got none beside ${blobs} clips and photos of a shop: put it back or restore a backup into a new folder; nothing was changed here`,
  );
}

async function countBlobs(dir: string): Promise<number> {
  let count = 0;
  for await (const _name of new Blobs(dir).names()) count += 1;
  return count;
}

async function assertWhole(store: SqlStore, witnessed: Witnessed | undefined): Promise<void> {
  for (const { build, seq, hash } of witnessed?.heads ?? []) {
    if ((await store.hashAt(build, seq)) === hash) continue;
    const now = (await store.head(build))?.seq ?? 0;
    throw new PlainError(
      `Expected entry ${seq} of build ${build}, which this shop held on ${witnessed?.at}, got a log that ends at ${now} or parts from it: put the newer database back, or start with --as-it-is to go on from here`,
    );
  }
}

/** What was put aside as nobody's and is named by an entry after all goes back to its place. */
async function takeBack(paths: DataPaths, blobs: Blobs, store: SqlStore): Promise<void> {
  for (const day of await readdir(paths.quarantine).catch(() => []))
    for (const name of await readdir(join(paths.quarantine, day)))
      if ((await store.blobRef(name)) !== undefined) await blobs.adopt(join(paths.quarantine, day, name), name);
}

/**
 * Hold a data folder against other processes: an open exclusive transaction on a file of its own.
 * The system lets go of it when the process ends, however it ends.
 * @throws DataInUse
 */
export function holdFolder(dir: string): Database.Database {
  const { lock: path } = dataPaths(dir);
  let lock: Database.Database | undefined;
  try {
    lock = new Database(path);
    lock.pragma("busy_timeout = 0");
    lock.exec("BEGIN EXCLUSIVE");
    return lock;
  } catch (error) {
    lock?.close();
    if ((error as { code?: string }).code === "SQLITE_BUSY") throw new DataInUse(dir);
    throw damageOf(error, path) ?? storageRefusal(error) ?? error;
  }
}
