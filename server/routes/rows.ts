// Stored rows as the API answers them.
import type { Receipt } from "../../shared/api/entries.ts";
import type { BenchEvent, StoredEvent } from "../../shared/events/events.ts";
import type { StoredRow } from "../store/store.ts";

export function toStored(row: StoredRow): StoredEvent {
  return { seq: row.seq, hash: row.hash, receivedAt: row.receivedAt, event: JSON.parse(row.body) as BenchEvent };
}

/** The same as JSON text, with the event's stored text as it is: nothing is read and written anew on the way. */
export function storedJson(row: StoredRow): string {
  return `{"seq":${row.seq},"hash":"${row.hash}","receivedAt":${JSON.stringify(row.receivedAt)},"event":${row.body}}`;
}

/** What the device that sent an event is told of it. */
export function receiptOf({ id, seq, hash, receivedAt, body }: StoredRow): Receipt {
  const { device, by } = JSON.parse(body) as BenchEvent;
  return { id, seq, hash, receivedAt, device, by };
}
