// Confirmed events kept on this device, so that a build opens with the shop out of reach. A copy only: the shop's log is the book.
import type { StoredEvent } from "../../shared/events/events.ts";
import type { Database } from "./db.ts";

const rowsOf = (build: string) => IDBKeyRange.bound([build, 0], [build, Number.MAX_SAFE_INTEGER]);

/** Rows of a build in order. */
export async function cachedRows(db: Database | undefined, build: string): Promise<StoredEvent[]> {
  return (await db?.getAll("log", rowsOf(build))) ?? [];
}

export async function cacheRows(db: Database | undefined, build: string, rows: readonly StoredEvent[]): Promise<void> {
  if (db === undefined || rows.length === 0) return;
  const tx = db.transaction("log", "readwrite");
  for (const row of rows) void tx.store.put(row, [build, row.seq]);
  await tx.done;
}

export async function dropCached(db: Database | undefined, build: string): Promise<void> {
  await db?.delete("log", rowsOf(build));
}
