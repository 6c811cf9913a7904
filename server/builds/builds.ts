// Folded builds in memory: brought up to date from the store before each use, one user at a time, a bounded number kept.
import { apply, type Build, openBuild, type Touched } from "../../shared/build/index.ts";
import type { BenchEvent } from "../../shared/events/events.ts";
import type { Finding } from "../../shared/rules/finding.ts";
import { expected, ServiceError } from "../errors.ts";
import type { Store, StoredRow } from "../store/store.ts";

const PAGE = 1000;
/** What keeps one build from being opened, and says nothing of the others. */
const UNREADABLE: ReadonlySet<string> = new Set(["unreadable_build", "damaged_log"]);

export interface OpenedBuild {
  readonly build: Build;
  readonly head: { readonly seq: number; readonly hash: string };
  readonly lastAt: string;
  /** When the shop received an event, by its own clock, ISO 8601. */
  receivedAt(id: string): string | undefined;
  /** Findings as the build stands. */
  findings(): Finding[];
  /** Bring `build` up to what has been stored since. */
  refresh(): Promise<void>;
}

/** Follows one build and knows what the rules say of it. */
export interface Judge {
  update(event: BenchEvent, touched: Touched): unknown;
  findings(): Finding[];
}

interface Folded {
  readonly build: Build;
  head: OpenedBuild["head"];
  lastAt: string;
  readonly received: Map<string, string>;
  /** Made when findings are first asked for, then kept up to date event by event. */
  judge: Judge | undefined;
}

interface Entry {
  folded: Folded | undefined;
  /** Ends when the last work on the build ends. */
  queue: Promise<unknown>;
  refreshing: Promise<unknown>;
}

export class Builds {
  private readonly store: Store;
  private readonly judge: (build: Build) => Judge;
  private readonly max: number;
  private readonly entries = new Map<string, Entry>();

  /** @param max how many folded builds are kept; the longest unused goes first */
  constructor(store: Store, judge: (build: Build) => Judge, max = 24) {
    this.store = store;
    this.judge = judge;
    this.max = max;
  }

  /**
   * Look at a build as its log stands now; waits for nobody who works on it.
   * @throws ServiceError `unknown_build`, `unreadable_build`
   */
  async read<T>(id: string, look: (opened: OpenedBuild) => T): Promise<T> {
    const entry = this.entry(id);
    return look(this.view(id, entry, await this.refresh(id, entry)));
  }

  /** Look at every build of the store. One that cannot be opened is named and keeps nobody from the others. */
  async readAll<T>(look: (opened: OpenedBuild) => T): Promise<{ builds: T[]; unreadable: { id: string; say: string }[] }> {
    const builds: T[] = [];
    const unreadable: { id: string; say: string }[] = [];
    for (const { build } of await this.store.heads())
      try {
        builds.push(await this.read(build, look));
      } catch (error) {
        if (!(error instanceof ServiceError && UNREADABLE.has(error.code))) throw error;
        unreadable.push({ id: build, say: error.message });
      }
    return { builds, unreadable };
  }

  /**
   * Work on a build as its log stands now. Works on one build follow each other, so that what one stores the next one sees.
   * @throws ServiceError `unknown_build`
   */
  use<T>(id: string, work: (opened: OpenedBuild) => Promise<T> | T): Promise<T> {
    const entry = this.entry(id);
    const result = entry.queue.then(async () => work(this.view(id, entry, await this.refresh(id, entry))));
    entry.queue = result.catch(() => undefined);
    return result;
  }

  private entry(id: string): Entry {
    const entry = this.entries.get(id) ?? { folded: undefined, queue: Promise.resolve(), refreshing: Promise.resolve() };
    // Deleting first puts it at the end of the map's order: the front is the longest unused.
    this.entries.delete(id);
    this.entries.set(id, entry);
    for (const old of this.entries.keys()) {
      if (this.entries.size <= this.max) break;
      this.entries.delete(old);
    }
    return entry;
  }

  /** Bring the fold up to the log, one reader of the store at a time so that rows are folded in their order. */
  private refresh(id: string, entry: Entry): Promise<Folded> {
    const result = entry.refreshing.then(async () => {
      for (;;) {
        const rows = await this.store.rowsAfter(id, entry.folded?.head.seq ?? 0, PAGE);
        for (const row of rows) entry.folded = foldRow(entry.folded, row);
        if (rows.length < PAGE) break;
      }
      if (entry.folded !== undefined) return entry.folded;
      this.entries.delete(id);
      throw new ServiceError("unknown_build", expected("a build of this shop", "build", id));
    });
    entry.refreshing = result.catch(() => undefined);
    return result;
  }

  private view(id: string, entry: Entry, folded: Folded): OpenedBuild {
    return {
      build: folded.build,
      head: folded.head,
      lastAt: folded.lastAt,
      receivedAt: (event) => folded.received.get(event),
      findings: () => {
        folded.judge ??= this.judge(folded.build);
        return folded.judge.findings();
      },
      refresh: async () => {
        await this.refresh(id, entry);
      },
    };
  }
}

function foldRow(folded: Folded | undefined, row: StoredRow): Folded {
  const event = eventOf(row);
  const head = { seq: row.seq, hash: row.hash };
  if (folded === undefined) {
    const received = new Map([[event.id, row.receivedAt]]);
    return { build: openedBy(event), head, lastAt: event.at, received, judge: undefined };
  }
  const touched = apply(folded.build, event);
  folded.judge?.update(event, touched);
  folded.head = head;
  folded.lastAt = event.at;
  folded.received.set(event.id, row.receivedAt);
  return folded;
}

/** The event of a row; where its text is none, one of no known type, which the fold sets aside under the row's name. */
function eventOf(row: StoredRow): BenchEvent {
  try {
    return JSON.parse(row.body) as BenchEvent;
  } catch {
    return { id: row.id, build: row.build, at: row.receivedAt, type: "unreadable" } as unknown as BenchEvent;
  }
}

function openedBy(event: BenchEvent): Build {
  try {
    return openBuild(event);
  } catch {
    throw new ServiceError(
      "unreadable_build",
      expected("the opening of a build", `the first entry of build ${event.build}`, "none"),
    );
  }
}
