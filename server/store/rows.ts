// A row of the event table as the service knows it.
import type { StoredRow } from "./store.ts";
import type { EventTable } from "./tables.ts";

export function toRow(row: EventTable): StoredRow {
  return {
    build: row.build,
    seq: row.seq,
    id: row.id,
    bundle: row.bundle,
    body: row.body,
    prevHash: row.prev_hash,
    hash: row.hash,
    receivedAt: row.received_at,
  };
}
