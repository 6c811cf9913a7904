// A keep that lasts as long as the page: for browsers that refuse a database, and for tests.
import type { StoredEvent } from "../../shared/events/events.ts";
import { type Blobs, blobsOfParcel, type Head, type Keep, type Parcel, type Refusal } from "./parcel.ts";

export class MemoryKeep implements Keep {
  #parcels: Parcel[] = [];
  readonly #blobs = new Map<string, Uint8Array<ArrayBuffer>>();
  readonly #logs = new Map<string, StoredEvent[]>();
  #nextSeq = 0;
  #shop: string | undefined;

  async append(parcels: readonly Parcel[], blobs: Blobs): Promise<Parcel[]> {
    const kept = parcels.map((parcel) =>
      parcel.kind === "event" ? { ...parcel, event: { ...parcel.event, deviceSeq: this.#nextSeq++ } } : { ...parcel },
    );
    await this.takeIn(kept, blobs);
    return kept;
  }

  async takeIn(parcels: readonly Parcel[], blobs: Blobs): Promise<number> {
    const known = new Set(this.#parcels.map(({ id }) => id));
    const fresh = parcels.filter(({ id }) => !known.has(id));
    for (const [sha256, bytes] of Object.entries(blobs)) this.#blobs.set(sha256, bytes);
    this.#parcels.push(...fresh);
    return fresh.length;
  }

  async all(): Promise<Parcel[]> {
    return [...this.#parcels];
  }

  async delivered(rows: readonly StoredEvent[]): Promise<void> {
    for (const row of rows) await this.cache(row.event.build, [row]);
    const gone = new Set(rows.map(({ event }) => event.id));
    this.#parcels = this.#parcels.filter(({ id }) => !gone.has(id));
  }

  async remove(ids: readonly string[]): Promise<void> {
    const gone = new Set(ids);
    this.#parcels = this.#parcels.filter(({ id }) => !gone.has(id));
    const wanted = new Set(this.#parcels.flatMap(blobsOfParcel));
    for (const name of this.#blobs.keys()) if (!wanted.has(name)) this.#blobs.delete(name);
  }

  async mark(ids: readonly string[], refusal: Refusal | undefined): Promise<void> {
    const marked = new Set(ids);
    this.#parcels = this.#parcels.map((parcel) => (marked.has(parcel.id) ? markedAs(parcel, refusal) : parcel));
  }

  async blob(sha256: string): Promise<Uint8Array<ArrayBuffer> | undefined> {
    return this.#blobs.get(sha256);
  }

  async log(build: string): Promise<StoredEvent[]> {
    return (this.#logs.get(build) ?? []).filter((row) => row !== undefined);
  }

  async cache(build: string, rows: readonly StoredEvent[]): Promise<void> {
    const log = this.#logs.get(build) ?? [];
    for (const row of rows) log[row.seq - 1] = row;
    this.#logs.set(build, log);
  }

  async head(build: string): Promise<Head | undefined> {
    return this.#logs.get(build)?.at(-1);
  }

  async hashAt(build: string, seq: number): Promise<string | undefined> {
    return this.#logs.get(build)?.[seq - 1]?.hash;
  }

  async builds(): Promise<string[]> {
    return [...this.#logs.keys()];
  }

  async replaceLog(build: string, rows: readonly StoredEvent[], lost: readonly Parcel[]): Promise<void> {
    this.#logs.delete(build);
    if (rows.length > 0) await this.cache(build, rows);
    const known = new Set(this.#parcels.map(({ id }) => id));
    this.#parcels.unshift(...lost.filter(({ id }) => !known.has(id)));
  }

  async shop(): Promise<string | undefined> {
    return this.#shop;
  }

  async setShop(shop: string): Promise<void> {
    this.#shop = shop;
  }
}

/** The same parcel with another mark, or none. */
export function markedAs({ refused: _before, ...parcel }: Parcel, refusal: Refusal | undefined): Parcel {
  return (refusal === undefined ? parcel : { ...parcel, refused: refusal }) as Parcel;
}
