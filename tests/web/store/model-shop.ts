// A shop that stores by id, as the real one does, behind a network with weather; its book can be put back from an older copy.
import type { Receipt } from "../../../shared/api/entries.ts";
import type { BenchEvent, StoredEvent } from "../../../shared/events/events.ts";
import { ShopFailure } from "../../../web/store/failure.ts";
import { blobsOfParcel, type Carrier, type PhotoParcel, parcelOf } from "../../../web/store/parcel.ts";

export type Weather =
  | "fine"
  /** The request never arrives. */
  | "lost"
  /** It arrives, and the answer is lost. */
  | "unanswered"
  /** It arrives twice. */
  | "twice"
  | "busy";

export class ModelShop implements Carrier {
  shop = "one";
  time = () => new Date().toISOString();
  rows: StoredEvent[] = [];
  blobs = new Set<string>();
  /** Ids it says no to, and ids it fails at. */
  readonly refuses = new Set<string>();
  readonly failsAt = new Set<string>();
  weather: Weather[] = [];
  #chain = 0;

  get log(): string[] {
    return this.rows.filter(({ event }) => event.type !== "photo.taken").map(({ event }) => event.id);
  }
  get photos(): string[] {
    return this.rows.filter(({ event }) => event.type === "photo.taken").map(({ event }) => event.id);
  }

  /** What a backup keeps. */
  copy() {
    return { rows: [...this.rows], blobs: new Set(this.blobs) };
  }
  putBack({ rows, blobs }: ReturnType<ModelShop["copy"]>): void {
    this.rows = [...rows];
    this.blobs = new Set(blobs);
  }

  async #through<T>(work: () => T): Promise<T> {
    const weather = this.weather.shift() ?? "fine";
    if (weather === "lost") throw new ShopFailure("out_of_reach", "lost", 0);
    if (weather === "busy") throw new ShopFailure("not_ready", "busy", 503);
    const answer = work();
    if (weather === "twice") work();
    if (weather === "unanswered") throw new ShopFailure("out_of_reach", "no answer", 0);
    return answer;
  }

  async meet() {
    return { shop: this.shop, time: this.time() };
  }

  async rowsAfter(build: string, after: number, limit = 1000): Promise<readonly StoredEvent[]> {
    return this.rows.filter(({ event }) => event.build === build).slice(after, after + limit);
  }

  putBlob(sha256: string): Promise<void> {
    return this.#through(() => void this.blobs.add(sha256));
  }

  #judge(id: string): void {
    if (this.failsAt.has(id)) throw new ShopFailure("internal", `fault at ${id}`, 500);
    if (this.refuses.has(id)) throw new ShopFailure("invalid_event", `refused ${id}`, 400);
  }

  #store(event: BenchEvent): StoredEvent {
    const before = this.rows.find((row) => row.event.id === event.id);
    if (before !== undefined) return before;
    const seq = this.rows.filter((row) => row.event.build === event.build).length + 1;
    this.#chain += 1;
    const row = { seq, hash: this.#chain.toString(16).padStart(64, "0"), receivedAt: event.at, event };
    this.rows.push(row);
    return row;
  }

  postEvents(_build: string, events: readonly BenchEvent[]): Promise<readonly Receipt[]> {
    return this.#through(() => {
      for (const event of events) this.#judge(event.id);
      for (const event of events)
        if (blobsOfParcel(parcelOf(event)).some((name) => !this.blobs.has(name)))
          throw new ShopFailure("blob_missing", "no clip", 422);
      return events.map((event) => {
        const { seq, hash, receivedAt } = this.#store(event);
        return { id: event.id, seq, hash, receivedAt, device: event.device, by: event.by };
      });
    });
  }

  postPhoto({ id, build, at, sha256 }: PhotoParcel): Promise<readonly StoredEvent[]> {
    return this.#through(() => {
      this.#judge(id);
      this.blobs.add(sha256);
      const event = {
        id,
        build,
        at,
        device: "phone",
        deviceSeq: 0,
        by: "bench",
        type: "photo.taken",
        data: { photo: { sha256 } },
      };
      return [this.#store(event as unknown as BenchEvent)];
    });
  }
}
