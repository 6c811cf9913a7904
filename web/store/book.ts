// One open build on this device: its fold, kept up with the shop by a live stream, and added to through the outbox.
import { type Signal, signal } from "@preact/signals";
import type { Build } from "../../shared/build/index.ts";
import type { BenchEvent, StoredEvent } from "../../shared/events/events.ts";
import type { Evaluator, Finding } from "../../shared/rules/index.ts";
import type { Device } from "./device.ts";
import { asFailure } from "./failure.ts";
import { Fold, type Row } from "./fold.ts";
import type { Outbox, Trouble } from "./outbox.ts";
import { type Blobs, type Parcel, parcelOf } from "./parcel.ts";
import { outboxState } from "./runner.ts";
import { eventsAfter } from "./shop.ts";

const REOPEN_MS = 2000;

export class Book {
  readonly id: string;
  readonly #device: Device;
  readonly #outbox: Outbox;
  readonly #fold = new Fold();
  #source: EventSource | undefined;
  #reopen: ReturnType<typeof setTimeout> | undefined;
  #closed = false;
  #unwatch: (() => void) | undefined;
  #refused: ReadonlySet<string> = new Set();
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
    await this.#fromKeep();
    if (this.build !== undefined) this.loading.value = false;
    await this.#catchUp(true);
    this.loading.value = false;
    this.#follow(true);
    this.#unwatch = outboxState.subscribe(({ refused }) => this.#heed(refused));
  }

  close(): void {
    this.#closed = true;
    this.#unwatch?.();
    clearTimeout(this.#reopen);
    this.#source?.close();
    this.live.value = false;
  }

  /** Keep events made here, with the blobs they rest on; resolves when this device holds them durably, and the fold has them. */
  async log(events: readonly BenchEvent[], blobs: Blobs = {}): Promise<readonly BenchEvent[]> {
    const kept = await this.#outbox.add(events.map(parcelOf), blobs);
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

  /** What the shop confirmed to this device, and behind it what waits here. */
  async #fromKeep(): Promise<void> {
    this.#fold.reset();
    this.#fold.confirm(await this.#device.keep.log(this.id));
    await this.#addWaiting();
  }

  /** Entries that wait on this device belong to the build as it is seen here, and so do those that the shop has lost. */
  async #addWaiting(): Promise<void> {
    const parcels = await this.#device.keep.all();
    this.#fold.add(
      parcels.flatMap((parcel) =>
        parcel.kind === "event" && parcel.build === this.id && parcel.refused?.kind !== "refused" ? [parcel.event] : [],
      ),
    );
    this.#changed();
  }

  /** What the shop refused is no longer part of the build; what is sent again is. */
  #heed(refused: readonly Parcel[]): void {
    const out = refused.filter((parcel) => parcel.build === this.id && parcel.refused?.kind === "refused");
    const ids = new Set(out.map(({ id }) => id));
    const back = [...this.#refused].some((id) => !ids.has(id));
    this.#refused = ids;
    if (this.#fold.drop(ids)) this.#changed();
    if (back) void this.#addWaiting();
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
      if (check) await this.#compare();
      await this.#rest();
      this.trouble.value = undefined;
    } catch (error) {
      const { code, message } = asFailure(error);
      this.trouble.value = { code, message };
    }
    this.#changed();
  }

  /** Fetch what is new, each page while the one before is folded and kept. */
  async #rest(): Promise<void> {
    let after = this.#fold.head?.seq ?? 0;
    let page = await eventsAfter(this.id, after);
    while (page.events.length > 0) {
      after += page.events.length;
      const next = after < page.last ? eventsAfter(this.id, after) : undefined;
      // Handled where it is awaited; the page in hand comes first.
      next?.catch(() => undefined);
      if (!(await this.#take(page.events)) || next === undefined) break;
      page = await next;
    }
  }

  /** A shop whose log was put back from an older copy has other hashes: then what is shown is what this device has made of it. */
  async #compare(): Promise<void> {
    const { keep } = this.#device;
    if ((await keep.head(this.id)) !== undefined) await this.#outbox.compare(this.id);
    const { head } = this.#fold;
    if (head !== undefined && (await keep.hashAt(this.id, head.seq)) !== head.hash) await this.#fromKeep();
  }

  async #take(rows: readonly StoredEvent[]): Promise<boolean> {
    const whole = this.#fold.confirm(rows);
    // A copy only: a device without room for it opens the build from the shop.
    await this.#device.keep.cache(this.id, rows).catch(() => undefined);
    return whole;
  }

  /** @param checked the logs were compared just now */
  #follow(checked = false): void {
    if (this.#closed) return;
    const source = new EventSource(`/api/builds/${this.id}/live?after=${this.#fold.head?.seq ?? 0}`);
    this.#source = source;
    source.onopen = () => {
      this.live.value = true;
      // The shop may have been started on another book meanwhile.
      void (checked ? Promise.resolve() : this.#catchUp(true)).then(() => this.#outbox.drain());
    };
    source.onmessage = (message) => {
      const row = JSON.parse(String(message.data)) as StoredEvent;
      void this.#take([row]).then((whole) => (whole ? this.#changed() : this.#catchUp()));
    };
    source.onerror = () => {
      this.live.value = false;
      // A closed stream is not tried again by the browser: a service that is starting answers with an error first.
      source.close();
      clearTimeout(this.#reopen);
      // Somebody may be there who has no such build: another shop, or one whose book was put back.
      void this.#catchUp(true);
      this.#reopen = setTimeout(() => this.#follow(), REOPEN_MS);
    };
  }
}
