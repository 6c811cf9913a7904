// Folded builds in memory: brought up to date from the store before each use, one user at a time, a bounded number kept.
import { apply, type Build, openBuild } from "../../shared/build/index.ts";
import type { BenchEvent } from "../../shared/events/events.ts";
import type { Finding } from "../../shared/rules/finding.ts";
import { expected, ServiceError } from "../errors.ts";
import type { Store, StoredRow } from "../store/store.ts";

const PAGE = 1000;

export interface OpenedBuild {
  readonly build: Build;
  readonly head: { readonly seq: number; readonly hash: string };
  readonly lastAt: string;
  /** Findings at this head, evaluated once. */
  findings(): Finding[];
}

interface Entry {
  opened: (Omit<OpenedBuild, "findings"> & { findings?: Finding[] }) | undefined;
  queue: Promise<unknown>;
}

export class Builds {
  private readonly store: Store;
  private readonly evaluate: (build: Build) => Finding[];
  private readonly max: number;
  private readonly entries = new Map<string, Entry>();

  /** @param max how many folded builds are kept; the longest unused goes first */
  constructor(store: Store, evaluate: (build: Build) => Finding[], max = 24) {
    this.store = store;
    this.evaluate = evaluate;
    this.max = max;
  }

  /**
   * Use a build as its log stands now. Uses of one build follow each other, so that what one stores the next one sees.
   * @throws ServiceError `unknown_build`
   */
  use<T>(id: string, work: (opened: OpenedBuild) => Promise<T> | T): Promise<T> {
    const entry = this.entry(id);
    const result = entry.queue.then(async () => work(this.view(await this.refresh(id, entry))));
    entry.queue = result.catch(() => undefined);
    return result;
  }

  private entry(id: string): Entry {
    const entry = this.entries.get(id) ?? { opened: undefined, queue: Promise.resolve() };
    // Deleting first puts it at the end of the map's order: the front is the longest unused.
    this.entries.delete(id);
    this.entries.set(id, entry);
    for (const old of this.entries.keys()) {
      if (this.entries.size <= this.max) break;
      this.entries.delete(old);
    }
    return entry;
  }

  private async refresh(id: string, entry: Entry): Promise<NonNullable<Entry["opened"]>> {
    for (;;) {
      const rows = await this.store.rowsAfter(id, entry.opened?.head.seq ?? 0, PAGE);
      for (const row of rows) entry.opened = fold(entry.opened, row);
      if (rows.length < PAGE) break;
    }
    if (entry.opened === undefined) {
      this.entries.delete(id);
      throw new ServiceError("unknown_build", expected("a build of this shop", "build", id));
    }
    return entry.opened;
  }

  private view(opened: NonNullable<Entry["opened"]>): OpenedBuild {
    return {
      build: opened.build,
      head: opened.head,
      lastAt: opened.lastAt,
      findings: () => {
        opened.findings ??= this.evaluate(opened.build);
        return opened.findings;
      },
    };
  }
}

function fold(opened: Entry["opened"], row: StoredRow): NonNullable<Entry["opened"]> {
  const event = JSON.parse(row.body) as BenchEvent;
  if (opened !== undefined) apply(opened.build, event);
  return { build: opened?.build ?? openBuild(event), head: { seq: row.seq, hash: row.hash }, lastAt: event.at };
}
