// What the page holds for as long as it is open: this device, its outbox, and the build that is open.
import { type Signal, signal } from "@preact/signals";
import { Book } from "./book.ts";
import { learnCaller } from "./caller.ts";
import { type Device, openDevice } from "./device.ts";
import type { Outbox } from "./outbox.ts";
import { startOutbox } from "./runner.ts";
import { shopCarrier } from "./shop.ts";

export interface Bench {
  readonly device: Device;
  readonly outbox: Outbox;
}

export const bench: Signal<Bench | undefined> = signal(undefined);
export const openBook: Signal<Book | undefined> = signal(undefined);

/** Open this device's memory and start carrying. */
export async function startBench(): Promise<Bench> {
  const device = await openDevice();
  await learnCaller(device);
  const started = { device, outbox: startOutbox(device.keep, shopCarrier) };
  bench.value = started;
  // Asks the browser not to clear this page's memory when space runs low; it may refuse.
  void navigator.storage?.persist?.().catch(() => false);
  return started;
}

/** Make a build the open one. */
export function turnTo(id: string | undefined): void {
  const { value } = bench;
  if (value === undefined || openBook.value?.id === id) return;
  openBook.value?.close();
  openBook.value = undefined;
  if (id === undefined) return;
  const book = new Book(id, value.device, value.outbox);
  openBook.value = book;
  void book.open();
}
