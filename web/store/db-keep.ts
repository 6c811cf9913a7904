// The keep on IndexedDB. Every write of parcels asks for strict durability: it has left the browser's memory when its promise
// resolves.
import type { IDBPObjectStore, IDBPTransaction } from "idb";
import type { StoredEvent } from "../../shared/events/events.ts";
import type { BenchDb, Database, Kept } from "./db.ts";
import { ShopFailure } from "./failure.ts";
import { markedAs } from "./memory-keep.ts";
import { type Blobs, blobsOfParcel, type Head, type Keep, type Parcel, type Refusal } from "./parcel.ts";

const PIECE = 512 * 1024;
const STRICT = { durability: "strict" } as const;
const NEXT_SEQ = "nextSeq";
const SHOP = "shop";
/** Sounds and pictures that the shop has, oldest first: should its book be put back from an older copy, they are still here. */
const SENT = "sentBlobs";
interface Sent {
  readonly name: string;
  readonly bytes: number;
}
/** Bytes of those that are kept; the oldest go first, and all of them before an entry is turned away. */
const SENT_MOST = 200 * 1024 * 1024;

/** Rows under one key. */
const RUN = 1000;

type LogStore = IDBPObjectStore<BenchDb, ("outbox" | "pieces" | "settings" | "log")[], "log", "readwrite">;
type Write = IDBPTransaction<BenchDb, ("outbox" | "pieces" | "settings" | "log")[], "readwrite">;

export class DbKeep implements Keep {
  readonly #db: Database;
  constructor(db: Database) {
    this.#db = db;
  }

  /** Numbers are given inside the transaction, so two tabs of one device never give the same one. */
  append(parcels: readonly Parcel[], blobs: Blobs): Promise<Parcel[]> {
    return this.#withRoom(async () => {
      const tx = this.#write();
      const settings = tx.objectStore("settings");
      let seq = Number((await settings.get(NEXT_SEQ)) ?? 0);
      const kept = parcels.map((parcel) =>
        parcel.kind === "event" ? { ...parcel, event: { ...parcel.event, deviceSeq: seq++ } } : parcel,
      );
      putAll(tx, kept, blobs);
      void settings.put(seq, NEXT_SEQ);
      await tx.done;
      return kept;
    });
  }

  takeIn(parcels: readonly Parcel[], blobs: Blobs): Promise<number> {
    return this.#withRoom(async () => {
      const tx = this.#write();
      const known = new Set((await tx.objectStore("outbox").getAll()).map(({ parcel }) => parcel.id));
      const fresh = parcels.filter(({ id }) => !known.has(id));
      putAll(tx, fresh, blobs);
      await tx.done;
      return fresh.length;
    });
  }

  async all(): Promise<Parcel[]> {
    return (await this.#db.getAll("outbox")).map(({ parcel }) => parcel);
  }

  async delivered(rows: readonly StoredEvent[]): Promise<void> {
    const tx = this.#write();
    for (const row of rows) void tx.objectStore("log").put(row, [row.event.build, row.seq]);
    const released = await takeOut(tx, new Set(rows.map(({ event }) => event.id)));
    if (released.size > 0) await keepSent(tx, released, SENT_MOST);
    await tx.done;
  }

  async remove(ids: readonly string[]): Promise<void> {
    const tx = this.#write();
    for (const name of await takeOut(tx, new Set(ids))) void tx.objectStore("pieces").delete(piecesOf(name));
    await tx.done;
  }

  async mark(ids: readonly string[], refusal: Refusal | undefined): Promise<void> {
    const tx = this.#write();
    for (const id of ids) {
      const kept = await tx.objectStore("outbox").index("id").get(id);
      if (kept !== undefined) void tx.objectStore("outbox").put({ ...kept, parcel: markedAs(kept.parcel, refusal) });
    }
    await tx.done;
  }

  async blob(sha256: string): Promise<Uint8Array<ArrayBuffer> | undefined> {
    const pieces = await this.#db.getAll("pieces", piecesOf(sha256));
    if (pieces.length === 0) return undefined;
    const bytes = new Uint8Array(pieces.reduce((sum, piece) => sum + piece.byteLength, 0));
    let at = 0;
    for (const piece of pieces) {
      bytes.set(new Uint8Array(piece), at);
      at += piece.byteLength;
    }
    return bytes;
  }

  async log(build: string): Promise<StoredEvent[]> {
    return (await this.#db.getAll("log", rowsOf(build))).flat();
  }

  async cache(build: string, rows: readonly StoredEvent[]): Promise<void> {
    if (rows.length === 0) return;
    await this.#withRoom(async () => {
      const tx = this.#db.transaction(["log"], "readwrite");
      putRuns(tx.objectStore("log"), build, rows);
      await tx.done;
    });
  }

  async head(build: string): Promise<Head | undefined> {
    const cursor = await this.#db.transaction("log").store.openCursor(rowsOf(build), "prev");
    return [cursor?.value ?? []].flat().at(-1);
  }

  async hashAt(build: string, seq: number): Promise<string | undefined> {
    const upTo = IDBKeyRange.bound([build, 0], [build, seq]);
    const cursor = await this.#db.transaction("log").store.openCursor(upTo, "prev");
    return [cursor?.value ?? []].flat().find((row) => row.seq === seq)?.hash;
  }

  async builds(): Promise<string[]> {
    const builds: string[] = [];
    let cursor = await this.#db.transaction("log").store.openKeyCursor();
    while (cursor !== null) {
      const [build] = cursor.key;
      builds.push(build);
      cursor = await cursor.continue([build, Number.MAX_SAFE_INTEGER]);
    }
    return builds;
  }

  async replaceLog(build: string, rows: readonly StoredEvent[], lost: readonly Parcel[]): Promise<void> {
    const tx = this.#write();
    void tx.objectStore("log").delete(rowsOf(build));
    putRuns(tx.objectStore("log"), build, rows);
    const outbox = tx.objectStore("outbox");
    const kept = await outbox.getAll();
    const known = new Set(kept.map(({ parcel }) => parcel.id));
    const fresh = lost.filter(({ id }) => !known.has(id));
    const first = Math.min(0, kept[0]?.order ?? 0) - fresh.length;
    for (const [index, parcel] of fresh.entries()) void outbox.add({ order: first + index, parcel });
    await tx.done;
  }

  async shop(): Promise<string | undefined> {
    return (await this.#db.get("settings", SHOP)) as string | undefined;
  }

  async setShop(shop: string): Promise<void> {
    await this.#db.put("settings", shop, SHOP);
  }

  #write(): Write {
    return this.#db.transaction(["outbox", "pieces", "settings", "log"], "readwrite", STRICT);
  }

  /** What the shop has makes room for what it has not. @throws ShopFailure `device_full` when that is not enough */
  async #withRoom<T>(work: () => Promise<T>): Promise<T> {
    try {
      return await work();
    } catch (error) {
      if (!isFull(error)) throw error;
    }
    try {
      const tx = this.#write();
      await keepSent(tx, new Set(), 0);
      await tx.done;
      return await work();
    } catch (error) {
      if (!isFull(error)) throw error;
      throw new ShopFailure("device_full", "Expected room on this device, got none: nothing of this was kept", 0);
    }
  }
}

const isFull = (error: unknown) => error instanceof DOMException && error.name === "QuotaExceededError";

function putAll(tx: Write, parcels: readonly Parcel[], blobs: Blobs): void {
  for (const [sha256, bytes] of Object.entries(blobs))
    for (let at = 0, n = 0; at < bytes.length; at += PIECE, n += 1)
      void tx.objectStore("pieces").put(bytes.slice(at, at + PIECE).buffer, [sha256, n]);
  for (const parcel of parcels) void tx.objectStore("outbox").add({ parcel } as Kept);
}

/** Keep rows in runs; single rows that a run covers are taken out. */
function putRuns(store: LogStore, build: string, rows: readonly StoredEvent[]): void {
  for (let from = 0; from < rows.length; from += RUN) {
    const run = rows.slice(from, from + RUN);
    const [first, last] = [run[0]?.seq ?? 0, run.at(-1)?.seq ?? 0];
    void store.delete(IDBKeyRange.bound([build, first], [build, last]));
    void store.put(run, [build, first]);
  }
}

/** Take parcels out of the row; gives the blobs that no other parcel rests on. */
async function takeOut(tx: Write, ids: ReadonlySet<string>): Promise<Set<string>> {
  const outbox = tx.objectStore("outbox");
  const released = new Set<string>();
  const wanted = new Set<string>();
  for (const { order, parcel } of await outbox.getAll()) {
    const gone = ids.has(parcel.id);
    if (gone) void outbox.delete(order);
    for (const name of blobsOfParcel(parcel)) (gone ? released : wanted).add(name);
  }
  for (const name of wanted) released.delete(name);
  return released;
}

/** Keep the newest of the blobs that the shop has, `most` bytes of them. */
async function keepSent(tx: Write, released: ReadonlySet<string>, most: number): Promise<void> {
  const wanted = new Set((await tx.objectStore("outbox").getAll()).flatMap(({ parcel }) => blobsOfParcel(parcel)));
  const before = ((await tx.objectStore("settings").get(SENT)) as Sent[] | undefined) ?? [];
  const sent = before.filter(({ name }) => !released.has(name) && !wanted.has(name));
  for (const name of released) sent.push({ name, bytes: await sizeOf(tx, name) });
  let bytes = sent.reduce((sum, one) => sum + one.bytes, 0);
  while (bytes > most) {
    const oldest = sent.shift();
    if (oldest === undefined) break;
    bytes -= oldest.bytes;
    void tx.objectStore("pieces").delete(piecesOf(oldest.name));
  }
  void tx.objectStore("settings").put(sent, SENT);
}

async function sizeOf(tx: Write, name: string): Promise<number> {
  const count = await tx.objectStore("pieces").count(piecesOf(name));
  const last = count === 0 ? undefined : await tx.objectStore("pieces").get([name, count - 1]);
  return Math.max(0, count - 1) * PIECE + (last?.byteLength ?? 0);
}

const piecesOf = (sha256: string) => IDBKeyRange.bound([sha256, 0], [sha256, Number.MAX_SAFE_INTEGER]);
const rowsOf = (build: string) => IDBKeyRange.bound([build, 0], [build, Number.MAX_SAFE_INTEGER]);
