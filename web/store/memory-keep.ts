// A keep that lasts as long as the page: for browsers that refuse a database, and for tests.
import { type Blobs, blobsOfParcel, type Keep, type Parcel, type Refusal } from "./parcel.ts";

export class MemoryKeep implements Keep {
  #parcels: Parcel[] = [];
  readonly #blobs = new Map<string, Uint8Array<ArrayBuffer>>();
  #nextSeq = 0;

  async append(parcels: readonly Parcel[], blobs: Blobs): Promise<Parcel[]> {
    const kept = parcels.map((parcel) =>
      parcel.kind === "event" ? { ...parcel, event: { ...parcel.event, deviceSeq: this.#nextSeq++ } } : { ...parcel },
    );
    for (const [sha256, bytes] of Object.entries(blobs)) this.#blobs.set(sha256, bytes);
    this.#parcels.push(...kept);
    return kept;
  }

  async all(): Promise<Parcel[]> {
    return [...this.#parcels];
  }

  async remove(ids: readonly string[]): Promise<void> {
    const gone = new Set(ids);
    this.#parcels = this.#parcels.filter(({ id }) => !gone.has(id));
    const wanted = new Set(this.#parcels.flatMap(blobsOfParcel));
    for (const name of this.#blobs.keys()) if (!wanted.has(name)) this.#blobs.delete(name);
  }

  async refuse(id: string, refusal: Refusal): Promise<void> {
    this.#parcels = this.#parcels.map((parcel) => (parcel.id === id ? { ...parcel, refused: refusal } : parcel));
  }

  async blob(sha256: string): Promise<Uint8Array<ArrayBuffer> | undefined> {
    return this.#blobs.get(sha256);
  }
}
