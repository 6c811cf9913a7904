// What waits on this device to be carried to the shop, and the two things the outbox is built on: where it is kept, who carries it.
import type { Receipt } from "../../shared/api/entries.ts";
import type { BenchEvent, StoredEvent } from "../../shared/events/events.ts";

/**
 * Why a parcel does not go with the others. It stays on this device until the shop has it or a person decides.
 * `refused`: the shop looked at it and said no. `aside`: the shop failed at it; it is tried again behind the others.
 * `lost`: the shop had confirmed it and has it no more.
 */
export interface Refusal {
  readonly kind: "refused" | "aside" | "lost";
  readonly code: string;
  readonly message: string;
}

interface Wrapping {
  /** Event id; for a photo the id its event will get. */
  readonly id: string;
  readonly build: string;
  readonly at: string;
  readonly refused?: Refusal;
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

/** Number and hash of an entry in the shop's log of a build. */
export interface Head {
  readonly seq: number;
  readonly hash: string;
}

/** This device's memory. What changes it is durable when the promise resolves, and all or nothing. */
export interface Keep {
  /** Number the events of this device anew, and keep all parcels in this order, with the blobs they rest on. */
  append(parcels: readonly Parcel[], blobs: Blobs): Promise<Parcel[]>;
  /** Keep parcels made earlier or elsewhere as they are; gives how many were not here yet. */
  takeIn(parcels: readonly Parcel[], blobs: Blobs): Promise<number>;
  /** Oldest first. */
  all(): Promise<Parcel[]>;
  /** The shop has these: from the row of parcels into the copy of its log. Their blobs are kept as long as there is room. */
  delivered(rows: readonly StoredEvent[]): Promise<void>;
  /** Let parcels go for good. */
  remove(ids: readonly string[]): Promise<void>;
  /** Say why parcels do not go with the others, or with `undefined` that they do. */
  mark(ids: readonly string[], refusal: Refusal | undefined): Promise<void>;
  blob(sha256: string): Promise<Uint8Array<ArrayBuffer> | undefined>;

  /** Rows that the shop has confirmed, so that a build opens with the shop out of reach; one may be missing in between. */
  log(build: string): Promise<StoredEvent[]>;
  cache(build: string, rows: readonly StoredEvent[]): Promise<void>;
  /** The last confirmed row of a build. */
  head(build: string): Promise<Head | undefined>;
  hashAt(build: string, seq: number): Promise<string | undefined>;
  /** Builds that this device has confirmed rows of. */
  builds(): Promise<string[]>;
  /** The shop's log is another one: take it over, and put what it lacks of ours in front of all parcels, marked `lost`. */
  replaceLog(build: string, rows: readonly StoredEvent[], lost: readonly Parcel[]): Promise<void>;

  /** The shop that this device's entries are for. */
  shop(): Promise<string | undefined>;
  setShop(shop: string): Promise<void>;
}

export interface Carrier {
  /** Who answers, and what its clock says. Another shop may have been started at the same address. */
  meet(): Promise<{ readonly shop?: string; readonly time: string }>;
  putBlob(sha256: string, bytes: Uint8Array<ArrayBuffer>): Promise<void>;
  postEvents(build: string, events: readonly BenchEvent[]): Promise<readonly Receipt[]>;
  /** Gives the events that the shop made of it. */
  postPhoto(parcel: PhotoParcel, bytes: Uint8Array<ArrayBuffer>): Promise<readonly StoredEvent[]>;
  /** Rows numbered above `after`; none for a build that the shop does not know. */
  rowsAfter(build: string, after: number, limit?: number): Promise<readonly StoredEvent[]>;
}

/** Hashes of the blobs that a parcel rests on. */
export function blobsOfParcel(parcel: Parcel): string[] {
  if (parcel.kind === "photo") return [parcel.sha256];
  if (parcel.event.type === "photo.taken") return [parcel.event.data.photo.sha256];
  if (parcel.event.type === "utterance.heard" && parcel.event.data.clip !== undefined) return [parcel.event.data.clip];
  return [];
}

export const parcelOf = (event: BenchEvent): EventParcel => ({
  kind: "event",
  id: event.id,
  build: event.build,
  at: event.at,
  event,
});
