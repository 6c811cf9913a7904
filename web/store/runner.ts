// Runs the outbox from the page: at the start, when the network says it is back, when the page is looked at again, and on a timer
// that waits longer after each failure. One tab at a time.
import { signal } from "@preact/signals";
import { checkMayWrite } from "./caller.ts";
import { Outbox, type OutboxState } from "./outbox.ts";
import type { Carrier, Keep } from "./parcel.ts";

const EVERY_MS = 15_000;
const LONGEST_MS = 120_000;

export const outboxState = signal<OutboxState>({ count: 0, refused: [] });

/** Two tabs of one device share one row of parcels: only the one that holds the lock works on it. */
function alone<T>(work: () => Promise<T>): Promise<T> {
  const locks = navigator.locks as LockManager | undefined;
  return locks === undefined ? work() : (locks.request("thoubook-outbox", work) as Promise<T>);
}

/** The outbox of this page, started. */
export function startOutbox(keep: Keep, carrier: Carrier): Outbox {
  const tell = (state: OutboxState) => {
    outboxState.value = state;
  };
  const outbox = new Outbox(keep, carrier, tell, alone, checkMayWrite);
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
