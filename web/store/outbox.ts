// Carries parcels to the shop in the order they were made, each exactly once as the shop sees it: ids make repeats harmless,
// and nothing is dropped here before the shop's receipt with its hash. Kept apart from browser and network, so tests can break both.
import { asFailure, ShopFailure } from "./failure.ts";
import { type Blobs, blobsOfParcel, type Carrier, type EventParcel, type Keep, type Parcel } from "./parcel.ts";

/** Events in one request. */
const BATCH = 50;

export interface OutboxState {
  readonly count: number;
  /** ISO time of the oldest parcel that waits. */
  readonly oldest?: string;
  readonly refused: readonly Parcel[];
  /** Why the last try ended early. */
  readonly trouble?: { readonly code: string; readonly message: string };
}

export class Outbox {
  readonly #keep: Keep;
  readonly #carrier: Carrier;
  readonly #told: (state: OutboxState) => void;
  #running: Promise<boolean> | undefined;
  #again = false;
  #trouble: OutboxState["trouble"];

  constructor(keep: Keep, carrier: Carrier, told: (state: OutboxState) => void = () => {}) {
    this.#keep = keep;
    this.#carrier = carrier;
    this.#told = told;
  }

  /** Keep parcels durably. Only when this resolves may a screen say that they are kept. */
  async add(parcels: readonly Parcel[], blobs: Blobs = {}): Promise<Parcel[]> {
    const kept = await this.#keep.append(parcels, blobs);
    await this.report();
    return kept;
  }

  async report(): Promise<void> {
    const all = await this.#keep.all();
    const waiting = all.filter((parcel) => parcel.refused === undefined);
    const oldest = waiting[0]?.at;
    this.#told({
      count: waiting.length,
      refused: all.filter((parcel) => parcel.refused !== undefined),
      ...(oldest === undefined ? {} : { oldest }),
      ...(this.#trouble === undefined ? {} : { trouble: this.#trouble }),
    });
  }

  /** Send all that waits. Resolves to true when nothing is left, false when it has to be tried later. One run at a time. */
  drain(): Promise<boolean> {
    this.#again = true;
    this.#running ??= this.#drainAll().finally(() => {
      this.#running = undefined;
    });
    return this.#running;
  }

  async #drainAll(): Promise<boolean> {
    while (this.#again) {
      this.#again = false;
      for (;;) {
        const batch = nextBatch(await this.#keep.all());
        if (batch.length === 0) break;
        if (!(await this.#tryBatch(batch))) return false;
      }
    }
    this.#trouble = undefined;
    await this.report();
    return true;
  }

  /** False when it has to be tried later. A batch that is refused is sent one by one, so that one bad event holds up no other. */
  async #tryBatch(batch: readonly Parcel[]): Promise<boolean> {
    try {
      await this.#send(batch);
    } catch (error) {
      const failure = asFailure(error);
      if (failure.passes) {
        this.#trouble = { code: failure.code, message: failure.message };
        await this.report();
        return false;
      }
      if (batch.length > 1) {
        for (const parcel of batch) if (!(await this.#tryBatch([parcel]))) return false;
        return true;
      }
      const only = batch[0];
      if (only !== undefined) await this.#keep.refuse(only.id, { code: failure.code, message: failure.message });
    }
    await this.report();
    return true;
  }

  async #send(batch: readonly Parcel[]): Promise<void> {
    const first = batch[0];
    if (first === undefined) return;
    if (first.kind === "photo") {
      await this.#carrier.postPhoto(first, await this.#localBlob(first.sha256));
      await this.#keep.remove([first.id]);
      return;
    }
    // Put without asking first: the name is the content's hash, so a second time changes nothing.
    for (const sha256 of new Set(batch.flatMap(blobsOfParcel)))
      await this.#carrier.putBlob(sha256, await this.#localBlob(sha256));
    const events = batch.filter((parcel): parcel is EventParcel => parcel.kind === "event").map(({ event }) => event);
    const receipts = await this.#carrier.postEvents(first.build, events);
    const got = new Set(receipts.filter(({ hash }) => /^[0-9a-f]{64}$/.test(hash)).map(({ id }) => id));
    const delivered = events.filter(({ id }) => got.has(id)).map(({ id }) => id);
    if (delivered.length === 0)
      throw new ShopFailure("strange_answer", `Expected a receipt for ${events.length} events, got none`, 502);
    await this.#keep.remove(delivered);
  }

  async #localBlob(sha256: string): Promise<Uint8Array<ArrayBuffer>> {
    const bytes = await this.#keep.blob(sha256);
    if (bytes !== undefined) return bytes;
    throw new ShopFailure("blob_missing", `Expected the sound or picture ${sha256} on this device, got none`, 422);
  }
}

/** The oldest parcels that can go together: one photo, or events of one build. */
function nextBatch(all: readonly Parcel[]): Parcel[] {
  const waiting = all.filter((parcel) => parcel.refused === undefined);
  const first = waiting[0];
  if (first === undefined || first.kind === "photo") return first === undefined ? [] : [first];
  const batch: Parcel[] = [];
  for (const parcel of waiting) {
    if (parcel.kind !== "event" || parcel.build !== first.build || batch.length >= BATCH) break;
    batch.push(parcel);
  }
  return batch;
}
