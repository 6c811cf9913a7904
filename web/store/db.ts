// This device's database: what waits for the shop, the sounds and pictures it rests on, what the shop has confirmed, and settings.
import { type DBSchema, type IDBPDatabase, openDB } from "idb";
import type { StoredEvent } from "../../shared/events/events.ts";
import type { Parcel } from "./parcel.ts";

/** A parcel with its place in the row. */
export interface Kept {
  readonly order: number;
  readonly parcel: Parcel;
}

export interface BenchDb extends DBSchema {
  outbox: { key: number; value: Kept; indexes: { id: string } };
  /** Blobs in pieces: some browsers fail on large values. Key: hash and number of the piece. */
  pieces: { key: [string, number]; value: ArrayBuffer };
  /**
   * Confirmed events by build and number, so that a build opens with the shop out of reach: single ones, and runs of them under
   * the number of their first, because a long log in single ones takes ten times as long to write.
   */
  log: { key: [string, number]; value: StoredEvent | StoredEvent[] };
  settings: { key: string; value: unknown };
}

export type Database = IDBPDatabase<BenchDb>;

/** Open the database. @throws when the browser keeps none */
export function openDatabase(name = "thoubook"): Promise<Database> {
  return openDB<BenchDb>(name, 1, {
    upgrade(db) {
      db.createObjectStore("outbox", { keyPath: "order", autoIncrement: true }).createIndex("id", "parcel.id");
      db.createObjectStore("pieces");
      db.createObjectStore("log");
      db.createObjectStore("settings");
    },
  });
}
