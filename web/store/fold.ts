// A build as this device sees it: what the shop confirmed, then what still waits here, folded by the same code as in the shop.
import { apply, type Build, openBuild } from "../../shared/build/index.ts";
import type { BenchEvent, StoredEvent } from "../../shared/events/events.ts";
import { Evaluator, type Finding } from "../../shared/rules/index.ts";

export interface Row {
  readonly event: BenchEvent;
  /** Present once the shop has it. */
  readonly seq?: number;
  /** When the shop received it, by the shop's clock. */
  readonly receivedAt?: string;
}

export class Fold {
  #confirmed: StoredEvent[] = [];
  #pending: BenchEvent[] = [];
  #build: Build | undefined;
  #evaluator: Evaluator | undefined;
  #findings: readonly Finding[] | undefined;

  get build(): Build | undefined {
    return this.#build;
  }
  /** Number and hash of the last event that the shop confirmed. */
  get head(): { readonly seq: number; readonly hash: string } | undefined {
    const last = this.#confirmed.at(-1);
    return last === undefined ? undefined : { seq: last.seq, hash: last.hash };
  }
  get pending(): readonly BenchEvent[] {
    return this.#pending;
  }

  /** Every event in the order folded, oldest first. */
  rows(): Row[] {
    return [
      ...this.#confirmed.map(({ event, seq, receivedAt }) => ({ event, seq, receivedAt })),
      ...this.#pending.map((event) => ({ event })),
    ];
  }

  /** The build and its findings to try events on: nothing here changes. Good until the next event is folded. */
  draft(): Evaluator | undefined {
    if (this.#build === undefined) return undefined;
    this.#evaluator ??= new Evaluator(this.#build);
    return this.#evaluator.draft();
  }

  /** Findings as things stand; worked out when first asked for after a change. */
  findings(): readonly Finding[] {
    if (this.#build === undefined) return [];
    this.#evaluator ??= new Evaluator(this.#build);
    this.#findings ??= this.#evaluator.findings();
    return this.#findings;
  }

  /** Take in confirmed rows; those known already are left out. Gives false when one is missing in between. */
  confirm(rows: readonly StoredEvent[]): boolean {
    let again = false;
    for (const row of rows) {
      const seq = this.#confirmed.length + 1;
      if (row.seq < seq) continue;
      if (row.seq > seq) return false;
      this.#confirmed.push(row);
      const at = this.#pending.findIndex(({ id }) => id === row.event.id);
      // The oldest that waits was folded at this very place already; anything else changes the order that the shop has, or whose
      // entry it is.
      const [mine] = at >= 0 ? this.#pending.splice(at, 1) : [];
      if (at > 0 || (mine !== undefined && mine.device !== row.event.device) || (at < 0 && this.#pending.length > 0))
        again = true;
      else if (at < 0 && !again) this.#foldOne(row.event);
    }
    if (again) this.#refold();
    return true;
  }

  /** Add events made here. */
  add(events: readonly BenchEvent[]): void {
    const known = new Set(this.#pending.map(({ id }) => id));
    for (const event of events) {
      if (known.has(event.id) || this.#build?.seen.has(event.id)) continue;
      this.#pending.push(event);
      this.#foldOne(event);
    }
  }

  /** Let go of events that the shop refused. True when there were any. */
  drop(ids: ReadonlySet<string>): boolean {
    const rest = this.#pending.filter(({ id }) => !ids.has(id));
    if (rest.length === this.#pending.length) return false;
    this.#pending = rest;
    this.#refold();
    return true;
  }

  /** Forget everything: the shop's log is another one. */
  reset(): void {
    this.#confirmed = [];
    this.#pending = [];
    this.#refold();
  }

  #foldOne(event: BenchEvent): void {
    this.#findings = undefined;
    if (this.#build === undefined) {
      if (event.type !== "build.opened") return;
      this.#build = openBuild(event);
      return;
    }
    const touched = apply(this.#build, event);
    this.#evaluator?.update(event, touched);
  }

  #refold(): void {
    this.#build = undefined;
    this.#evaluator = undefined;
    this.#findings = undefined;
    for (const { event } of this.#confirmed) this.#foldOne(event);
    for (const event of this.#pending) this.#foldOne(event);
  }
}
