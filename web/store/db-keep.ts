// The keep on IndexedDB. Every write asks for strict durability: it has left the browser's memory when its promise resolves.
import type { Database, Kept } from "./db.ts";
import { type Blobs, blobsOfParcel, type Keep, type Parcel, type Refusal } from "./parcel.ts";

const PIECE = 512 * 1024;
const STRICT = { durability: "strict" } as const;
const NEXT_SEQ = "nextSeq";

export class DbKeep implements Keep {
  readonly #db: Database;
  constructor(db: Database) {
    this.#db = db;
  }

  /** Numbers are given inside the transaction, so two tabs of one device never give the same one. */
  async append(parcels: readonly Parcel[], blobs: Blobs): Promise<Parcel[]> {
    const tx = this.#db.transaction(["outbox", "pieces", "settings"], "readwrite", STRICT);
    const settings = tx.objectStore("settings");
    let seq = Number((await settings.get(NEXT_SEQ)) ?? 0);
    for (const [sha256, bytes] of Object.entries(blobs))
      for (let at = 0, n = 0; at < bytes.length; at += PIECE, n += 1)
        void tx.objectStore("pieces").put(bytes.slice(at, at + PIECE).buffer, [sha256, n]);
    const kept = parcels.map((parcel) =>
      parcel.kind === "event" ? { ...parcel, event: { ...parcel.event, deviceSeq: seq++ } } : parcel,
    );
    for (const parcel of kept) void tx.objectStore("outbox").add({ parcel } as Kept);
    void settings.put(seq, NEXT_SEQ);
    await tx.done;
    return kept;
  }

  async all(): Promise<Parcel[]> {
    return (await this.#db.getAll("outbox")).map(({ parcel }) => parcel);
  }

  async remove(ids: readonly string[]): Promise<void> {
    const tx = this.#db.transaction(["outbox", "pieces"], "readwrite", STRICT);
    const outbox = tx.objectStore("outbox");
    const gone = new Set(ids);
    const released = new Set<string>();
    const wanted = new Set<string>();
    for (const { order, parcel } of await outbox.getAll()) {
      const names = blobsOfParcel(parcel);
      if (gone.has(parcel.id)) {
        void outbox.delete(order);
        for (const name of names) released.add(name);
      } else for (const name of names) wanted.add(name);
    }
    for (const name of released) if (!wanted.has(name)) void tx.objectStore("pieces").delete(piecesOf(name));
    await tx.done;
  }

  async refuse(id: string, refusal: Refusal): Promise<void> {
    const tx = this.#db.transaction("outbox", "readwrite", STRICT);
    const kept = await tx.store.index("id").get(id);
    if (kept !== undefined) void tx.store.put({ ...kept, parcel: { ...kept.parcel, refused: refusal } });
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
}

const piecesOf = (sha256: string) => IDBKeyRange.bound([sha256, 0], [sha256, Number.MAX_SAFE_INTEGER]);
