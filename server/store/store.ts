// What the service needs of a store of events, whatever database stands behind it.
import type { BenchEvent } from "../../shared/events/events.ts";
import type { ChainRow } from "./chain.ts";

export interface StoredRow extends ChainRow {
  readonly build: string;
  /** Id of the first event of the request it came with: events made from one utterance share it. */
  readonly bundle: string;
}

export interface Head {
  readonly build: string;
  readonly seq: number;
  readonly hash: string;
}

/** A blob that an event rests on. Clips are served as sound; photo originals are not served. */
export interface BlobRef {
  readonly sha256: string;
  readonly kind: "clip" | "photo";
  readonly build: string;
  readonly event: string;
  /** Media type for a photo; clips are WAV. */
  readonly type: string;
}

export interface Appended {
  /** The stored rows, in the order of the events given. */
  readonly rows: StoredRow[];
  /** How many of them this call added; the others were there already, word for word. */
  readonly added: number;
}

export interface Store {
  /**
   * Append events to the end of their builds' logs in one transaction; all or none.
   * An event whose id is stored already with the same content is answered with its row and not added again.
   * Nothing is added to a log whose chain does not hold up to its end.
   * @throws ServiceError `id_conflict` (same id, other content), `build_exists`, `unknown_build`, `out_of_space`,
   * `storage_failed`, `damaged_log`
   */
  append(events: readonly BenchEvent[]): Promise<Appended>;
  heads(): Promise<Head[]>;
  head(build: string): Promise<Head | undefined>;
  /** Hash of the entry of this number, where there is one. */
  hashAt(build: string, seq: number): Promise<string | undefined>;
  /**
   * Rows of a build numbered above `after`, in order, at most `limit`.
   * @throws ServiceError `damaged_log`, as all that read rows, when a text is not what its hash covers
   */
  rowsAfter(build: string, after: number, limit: number): Promise<StoredRow[]>;
  find(id: string): Promise<StoredRow | undefined>;
  bundle(id: string): Promise<StoredRow[]>;
  blobRef(sha256: string): Promise<BlobRef | undefined>;
  /** Whether an event of this build rests on this blob. */
  blobInBuild(sha256: string, build: string): Promise<boolean>;
  blobRefs(): Promise<BlobRef[]>;
  /** The next number for events that the server itself makes in a device's name. */
  nextDeviceSeq(device: string): Promise<number>;
  close(): Promise<void>;
}
