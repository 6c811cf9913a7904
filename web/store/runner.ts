// Runs the outbox from the page: at the start, when the network says it is back, when the page is looked at again, and on a timer
// that waits longer after each failure. One tab at a time.
import { signal } from "@preact/signals";
import { Outbox, type OutboxState } from "./outbox.ts";
import type { Carrier, Keep, Parcel } from "./parcel.ts";

const EVERY_MS = 15_000;
const LONGEST_MS = 120_000;

export const outboxState = signal<OutboxState>({ count: 0, refused: [] });

/** The outbox of this page, started. */
export function startOutbox(keep: Keep, carrier: Carrier): Outbox {
  const outbox = new LockedOutbox(keep, carrier, (state) => {
    outboxState.value = state;
  });
  let wait = EVERY_MS;
  let timer: ReturnType<typeof setTimeout>;
  const run = async () => {
    clearTimeout(timer);
    const done = await outbox.drain();
    wait = done ? EVERY_MS : Math.min(wait * 2, LONGEST_MS);
    clearTimeout(timer);
    timer = setTimeout(run, wait);
  };
  addEventListener("online", () => void run());
  document.addEventListener("visibilitychange", () => {
    if (document.visibilityState === "visible") void run();
  });
  void outbox.report();
  void run();
  return outbox;
}

/** Two tabs of one device share one row of parcels: only the one that holds the lock sends. */
class LockedOutbox extends Outbox {
  override drain(): Promise<boolean> {
    const locks = navigator.locks as LockManager | undefined;
    if (locks === undefined) return super.drain();
    return locks.request("thoubook-outbox", () => super.drain());
  }
}

/** The parcels that wait, as a file a person can carry to the shop by hand. */
export function asFile(parcels: readonly Parcel[]): Blob {
  return new Blob([JSON.stringify({ format: "thoubook-unsent/1", parcels }, null, 1)], { type: "application/json" });
}
