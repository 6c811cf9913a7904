// A row of the event table as the service knows it.
import { ServiceError } from "../errors.ts";
import { chainHash } from "./chain.ts";
import type { StoredRow } from "./store.ts";
import type { EventTable } from "./tables.ts";

/** The row as it is, for whoever checks it. */
export function rowOf(row: EventTable): StoredRow {
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

/**
 * The row for whoever is to believe it: its text is what its hash covers.
 * @throws ServiceError `damaged_log` naming the entry
 */
export function checkedRow(row: EventTable): StoredRow {
  if (chainHash(row.prev_hash, row.received_at, row.body) !== row.hash)
    throw new ServiceError(
      "damaged_log",
      `Expected the stored hash for entry ${row.seq} of build ${row.build}, got a text that was changed: run verify, and restore a backup`,
    );
  return rowOf(row);
}
