// What waits on this device to be carried to the shop, and the two things the outbox is built on: where it is kept, who carries it.
import type { Receipt } from "../../shared/api/entries.ts";
import type { BenchEvent } from "../../shared/events/events.ts";

/** A refusal that trying again will not change. The parcel stays here until a person decides. */
export interface Refusal {
  readonly code: string;
  readonly message: string;
}

interface Wrapping {
  /** Event id; for a photo the id its event will get. */
  readonly id: string;
  readonly build: string;
  readonly at: string;
  refused?: Refusal;
}
export interface EventParcel extends Wrapping {
  readonly kind: "event";
  readonly event: BenchEvent;
}
/** A picture whose event the shop makes, because it looks at the bytes. Fields as `POST …/photos` takes them. */
export interface PhotoParcel extends Wrapping {
  readonly kind: "photo";
  readonly sha256: string;
  readonly type: string;
  readonly fields: Readonly<Record<string, string>>;
}
export type Parcel = EventParcel | PhotoParcel;

/** A sound or picture as it came, by its hash. */
export interface Blobs {
  readonly [sha256: string]: Uint8Array<ArrayBuffer>;
}

/** Durable when the promise resolves; `append` and `remove` are all or nothing. */
export interface Keep {
  /** Number the events of this device anew, and keep all parcels in this order, with the blobs they rest on. */
  append(parcels: readonly Parcel[], blobs: Blobs): Promise<Parcel[]>;
  /** Oldest first. */
  all(): Promise<Parcel[]>;
  /** Let parcels go, and the blobs that no other parcel rests on. */
  remove(ids: readonly string[]): Promise<void>;
  refuse(id: string, refusal: Refusal): Promise<void>;
  blob(sha256: string): Promise<Uint8Array<ArrayBuffer> | undefined>;
}

export interface Carrier {
  putBlob(sha256: string, bytes: Uint8Array<ArrayBuffer>): Promise<void>;
  postEvents(build: string, events: readonly BenchEvent[]): Promise<readonly Receipt[]>;
  postPhoto(parcel: PhotoParcel, bytes: Uint8Array<ArrayBuffer>): Promise<void>;
}

/** Hashes of the blobs that a parcel rests on. */
export function blobsOfParcel(parcel: Parcel): string[] {
  if (parcel.kind === "photo") return [parcel.sha256];
  if (parcel.event.type === "utterance.heard" && parcel.event.data.clip !== undefined) return [parcel.event.data.clip];
  return [];
}
