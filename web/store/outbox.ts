// Carries parcels to the shop in the order they were made, each exactly once as the shop sees it: ids make repeats harmless,
// and nothing is dropped here before the shop's receipt with its hash. Kept apart from browser and network, so tests can break both.
import { asFailure, ShopFailure } from "./failure.ts";
import { compareLogs, logsAgree } from "./fork.ts";
import type { Blobs, Carrier, Keep, Parcel } from "./parcel.ts";
import { nextBatch } from "./row.ts";
import { sendBatch } from "./send.ts";

/** Events in one request. */
const BATCH = 50;
/** Parcels that the shop fails at one after the other until it is the shop that is taken to be ill. */
const ILL = 3;
const ASIDE_AGAIN_MS = 120_000;

export interface Trouble {
  readonly code: string;
  readonly message: string;
}

export interface OutboxState {
  readonly count: number;
  /** ISO time of the oldest parcel that waits. */
  readonly oldest?: string;
  /** Parcels that do not go with the others, with why. */
  readonly refused: readonly Parcel[];
  /** Why the last try ended early. */
  readonly trouble?: Trouble;
  /** Why this device could not keep what it was given last: nothing of it is anywhere. */
  readonly notKept?: Trouble;
  /** Whether another shop than the one these parcels are for answers at its address. */
  readonly anotherShop?: boolean;
  /** How far this device's clock is ahead of the shop's; behind is negative. */
  readonly aheadMs?: number;
}

/** What one run has learnt on its way. */
interface Run {
  /** Events that go in one request. */
  most: number;
  /** Parcels that the shop failed at once. */
  readonly failed: Set<string>;
  /** How many were set aside one after the other. */
  ill: number;
}

type Alone = <T>(work: () => Promise<T>) => Promise<T>;

export class Outbox {
  readonly #keep: Keep;
  readonly #carrier: Carrier;
  readonly #told: (state: OutboxState) => void;
  readonly #alone: Alone;
  readonly #check: () => void;
  #running: Promise<boolean> | undefined;
  #again = false;
  #trouble: Trouble | undefined;
  #notKept: Trouble | undefined;
  #aheadMs: number | undefined;
  #anotherShop = false;
  /** When a parcel that is set aside was tried last. */
  readonly #tried = new Map<string, number>();

  /**
   * @param alone runs one such work at a time, of all pages of this device
   * @param check throws where this device may not take anything in
   */
  constructor(
    keep: Keep,
    carrier: Carrier,
    told: (state: OutboxState) => void = () => {},
    alone: Alone = (work) => work(),
    check: () => void = () => {},
  ) {
    this.#keep = keep;
    this.#carrier = carrier;
    this.#told = told;
    this.#alone = alone;
    this.#check = check;
  }

  /** Keep parcels durably. Only when this resolves may a screen say that they are kept. */
  add(parcels: readonly Parcel[], blobs: Blobs = {}): Promise<Parcel[]> {
    return this.#keeping(() => this.#keep.append(parcels, blobs));
  }

  /** Keep parcels of a file as they are; gives how many were not here yet. Those that may go are sent with the others. */
  takeIn(parcels: readonly Parcel[], blobs: Blobs): Promise<number> {
    return this.#keeping(() => this.#keep.takeIn(parcels, blobs));
  }

  async #keeping<T>(work: () => Promise<T>): Promise<T> {
    try {
      this.#check();
      const kept = await work();
      this.#notKept = undefined;
      return kept;
    } catch (error) {
      const { code, message } = asFailure(error);
      this.#notKept = { code, message };
      throw error;
    } finally {
      await this.report();
    }
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
      ...(this.#notKept === undefined ? {} : { notKept: this.#notKept }),
      ...(this.#anotherShop ? { anotherShop: true } : {}),
      ...(this.#aheadMs === undefined ? {} : { aheadMs: this.#aheadMs }),
    });
  }

  /** Send these with the others again. */
  async sendAgain(ids: readonly string[]): Promise<boolean> {
    await this.#keep.mark(ids, undefined);
    await this.report();
    return this.drain();
  }

  /** Let parcels go that the shop will not get. */
  async remove(ids: readonly string[]): Promise<void> {
    await this.#keep.remove(ids);
    await this.report();
  }

  /** From now on this device's entries are for whoever answers at the shop's address. */
  async takeShop(): Promise<boolean> {
    const { shop } = await this.#carrier.meet();
    if (shop !== undefined) await this.#keep.setShop(shop);
    await this.meet();
    return this.drain();
  }

  /**
   * See whether the shop's log of a build still goes on from what it confirmed to this device; where it does not, take it over
   * and put aside here what it lacks. True when it was taken over.
   * @throws ShopFailure when the shop cannot be asked
   */
  async compare(build: string): Promise<boolean> {
    await this.meet();
    // Looking needs no turn: a picture under way may keep the others waiting for minutes.
    if (await logsAgree(this.#keep, this.#carrier, build)) return false;
    return this.#alone(() => this.#compare(build));
  }

  async #compare(build: string): Promise<boolean> {
    const taken = await compareLogs(this.#keep, this.#carrier, build);
    if (taken) await this.report();
    return taken;
  }

  /** Send all that waits. Resolves to true when nothing is left to try, false when it has to be tried later. One run at a time. */
  drain(): Promise<boolean> {
    this.#again = true;
    this.#running ??= this.#alone(() => this.#drainAll()).finally(() => {
      this.#running = undefined;
    });
    return this.#running;
  }

  async #drainAll(): Promise<boolean> {
    try {
      while (this.#again) {
        this.#again = false;
        await this.#carry();
      }
      this.#trouble = undefined;
    } catch (error) {
      const { code, message } = asFailure(error);
      this.#trouble = { code, message };
    }
    await this.report();
    return this.#trouble === undefined && !(await this.#keep.all()).some(({ refused }) => refused?.kind === "aside");
  }

  /** See who answers at the shop's address. @throws ShopFailure `another_shop`, or when nobody does */
  async meet(): Promise<void> {
    try {
      await this.#meet();
    } finally {
      await this.report();
    }
  }

  /** @throws ShopFailure `another_shop`: its refusals count for nothing, and what is meant for the first is not given to it */
  async #meet(): Promise<void> {
    const { shop, time } = await this.#carrier.meet();
    this.#aheadMs = Date.now() - Date.parse(time);
    const ours = await this.#keep.shop();
    this.#anotherShop = shop !== undefined && ours !== undefined && shop !== ours;
    if (shop !== undefined && ours === undefined) await this.#keep.setShop(shop);
    if (this.#anotherShop)
      throw new ShopFailure(
        "another_shop",
        "Expected the shop that this device keeps entries for, got another shop's book at its address",
        0,
      );
  }

  async #carry(): Promise<void> {
    const compared = new Set<string>();
    const run: Run = { most: BATCH, failed: new Set(), ill: 0 };
    for (;;) {
      const batch = nextBatch(await this.#keep.all(), run.most, (id) => this.#mayTryAside(id));
      const [first] = batch;
      if (first === undefined) return;
      if (!compared.has(first.build)) {
        if (compared.size === 0) await this.#meet();
        compared.add(first.build);
        if (await this.#compare(first.build)) continue;
      }
      try {
        await this.#keep.delivered(await sendBatch(this.#keep, this.#carrier, batch));
        run.most = Math.min(BATCH, run.most * 2);
        run.ill = 0;
      } catch (error) {
        await this.#failed(batch, first, asFailure(error), run);
      }
      await this.report();
    }
  }

  /** @throws ShopFailure when all has to wait */
  async #failed(batch: readonly Parcel[], first: Parcel, failure: ShopFailure, run: Run): Promise<void> {
    const { about } = failure;
    if (about === "shop") throw failure;
    // One that cannot be taken must hold up no other: it is looked for by halves.
    if (batch.length > 1) {
      run.most = Math.ceil(batch.length / 2);
      return;
    }
    // What the shop fails at it gets once more at once: going on without it would change the order.
    if (about === "parcel" && first.refused === undefined && !run.failed.has(first.id)) {
      run.failed.add(first.id);
      return;
    }
    await this.#putAside(first, failure);
    run.ill = about === "parcel" ? run.ill + 1 : 0;
    if (run.ill >= ILL) throw failure;
  }

  async #putAside({ id }: Parcel, failure: ShopFailure): Promise<void> {
    // Whoever answers now is who judged it, and is there.
    await this.#meet();
    const { code, message } = failure;
    this.#tried.set(id, Date.now());
    await this.#keep.mark([id], { kind: failure.about === "parcel" ? "aside" : "refused", code, message });
  }

  #mayTryAside(id: string): boolean {
    const last = this.#tried.get(id);
    return last === undefined || Math.abs(Date.now() - last) > ASIDE_AGAIN_MS;
  }
}
