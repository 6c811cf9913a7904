// One open build on this device: its fold, kept up with the shop by a live stream, and added to through the outbox.
import { type Signal, signal } from "@preact/signals";
import type { Build } from "../../shared/build/index.ts";
import type { BenchEvent, StoredEvent } from "../../shared/events/events.ts";
import type { Evaluator, Finding } from "../../shared/rules/index.ts";
import type { Device } from "./device.ts";
import { asFailure } from "./failure.ts";
import { Fold, type Row } from "./fold.ts";
import { cachedRows, cacheRows, dropCached } from "./log-cache.ts";
import type { Outbox } from "./outbox.ts";
import type { Blobs, Parcel } from "./parcel.ts";
import { eventsAfter } from "./shop.ts";

export interface Trouble {
  readonly code: string;
  readonly message: string;
}

const REOPEN_MS = 2000;

export class Book {
  readonly id: string;
  readonly #device: Device;
  readonly #outbox: Outbox;
  readonly #fold = new Fold();
  #source: EventSource | undefined;
  #reopen: ReturnType<typeof setTimeout> | undefined;
  #closed = false;
  #fetching: Promise<void> | undefined;
  /** Changes with every change of the build; screens read it to be drawn again. */
  readonly tick: Signal<number> = signal(0);
  /** Whether the shop is streaming to this page now. */
  readonly live: Signal<boolean> = signal(false);
  readonly loading: Signal<boolean> = signal(true);
  readonly trouble: Signal<Trouble | undefined> = signal(undefined);

  constructor(id: string, device: Device, outbox: Outbox) {
    this.id = id;
    this.#device = device;
    this.#outbox = outbox;
  }

  get build(): Build | undefined {
    return this.#fold.build;
  }
  get head() {
    return this.#fold.head;
  }
  get device(): string {
    return this.#device.id;
  }
  rows(): Row[] {
    return this.#fold.rows();
  }
  findings(): readonly Finding[] {
    return this.#fold.findings();
  }

  /** The build and its findings to try events on: the book does not change. Good until the next event is logged. */
  draft(): Evaluator | undefined {
    return this.#fold.draft();
  }

  /** Show what this device has, then what the shop has, then follow it. */
  async open(): Promise<void> {
    const cached = await cachedRows(this.#device.db, this.id);
    this.#fold.confirm(cached);
    await this.#addWaiting();
    this.#changed();
    if (cached.length > 0) this.loading.value = false;
    await this.#catchUp(true);
    this.loading.value = false;
    this.#follow();
  }

  close(): void {
    this.#closed = true;
    clearTimeout(this.#reopen);
    this.#source?.close();
    this.live.value = false;
  }

  /** Keep events made here, with the blobs they rest on; resolves when this device holds them durably, and the fold has them. */
  async log(events: readonly BenchEvent[], blobs: Blobs = {}): Promise<readonly BenchEvent[]> {
    const kept = await this.#outbox.add(
      events.map((event): Parcel => ({ kind: "event", id: event.id, build: this.id, at: event.at, event })),
      blobs,
    );
    const numbered = kept.flatMap((parcel) => (parcel.kind === "event" ? [parcel.event] : []));
    this.#fold.add(numbered);
    this.#changed();
    void this.#outbox.drain();
    return numbered;
  }

  /** Keep a picture for the shop to look at. */
  async logPhoto(parcel: Parcel & { kind: "photo" }, bytes: Uint8Array<ArrayBuffer>): Promise<void> {
    await this.#outbox.add([parcel], { [parcel.sha256]: bytes });
    void this.#outbox.drain();
  }

  /** Events that wait on this device belong to the build as it is seen here. */
  async #addWaiting(): Promise<void> {
    const parcels = await this.#device.keep.all();
    this.#fold.add(
      parcels.flatMap((parcel) =>
        parcel.kind === "event" && parcel.build === this.id && parcel.refused === undefined ? [parcel.event] : [],
      ),
    );
  }

  #changed(): void {
    this.tick.value += 1;
  }

  #catchUp(check = false): Promise<void> {
    this.#fetching ??= this.#fetch(check).finally(() => {
      this.#fetching = undefined;
    });
    return this.#fetching;
  }

  async #fetch(check: boolean): Promise<void> {
    try {
      if (check) await this.#checkSameLog();
      for (;;) {
        const page = await eventsAfter(this.id, this.#fold.head?.seq ?? 0);
        await this.#take(page.events);
        if (page.events.length === 0 || (this.#fold.head?.seq ?? 0) >= page.last) break;
      }
      this.trouble.value = undefined;
    } catch (error) {
      const { code, message } = asFailure(error);
      this.trouble.value = { code, message };
    }
  }

  /** A shop whose log has been put back from a copy, or another shop at the same address, has other hashes. */
  async #checkSameLog(): Promise<void> {
    const { head } = this.#fold;
    if (head === undefined) return;
    const { events } = await eventsAfter(this.id, head.seq - 1, 1);
    if (events[0]?.hash === head.hash) return;
    await dropCached(this.#device.db, this.id);
    this.#fold.reset();
    this.#changed();
  }

  async #take(rows: readonly StoredEvent[]): Promise<boolean> {
    const whole = this.#fold.confirm(rows);
    this.#changed();
    await cacheRows(this.#device.db, this.id, rows);
    return whole;
  }

  #follow(): void {
    if (this.#closed) return;
    const source = new EventSource(`/api/builds/${this.id}/live?after=${this.#fold.head?.seq ?? 0}`);
    this.#source = source;
    source.onopen = () => {
      this.live.value = true;
      this.trouble.value = undefined;
      void this.#outbox.drain();
    };
    source.onmessage = (message) => {
      const row = JSON.parse(String(message.data)) as StoredEvent;
      void this.#take([row]).then((whole) => (whole ? undefined : this.#catchUp()));
    };
    source.onerror = () => {
      this.live.value = false;
      // A closed stream is not tried again by the browser: a service that is starting answers with an error first.
      source.close();
      clearTimeout(this.#reopen);
      this.#reopen = setTimeout(() => this.#follow(), REOPEN_MS);
    };
  }
}
