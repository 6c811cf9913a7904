// Checks the logs of a store: every chain, and every column and reference beside the hashed texts, against those texts.
import type { BenchEvent } from "../../shared/events/events.ts";
import { blobsOf } from "../store/blob-refs.ts";
import { ChainCheck, GENESIS } from "../store/chain.ts";
import { buildsIn, refsIn, rowsOf, type Snapshot } from "../store/log-reader.ts";
import { rowOf } from "../store/rows.ts";
import type { BlobRefTable, EventTable } from "../store/tables.ts";
import type { Fault } from "./fault.ts";

export interface LogReport {
  readonly builds: readonly { readonly build: string; readonly events: number; readonly head: string }[];
  /** Clips and photos that sound events name, with the entries that rest on them. */
  readonly blobs: ReadonlyMap<string, string>;
  readonly faults: readonly Fault[];
  /** Where each hash that was asked for stands. */
  readonly found: ReadonlyMap<string, { readonly build: string; readonly seq: number; readonly behind: number }>;
}

export interface LogCheckOptions {
  /** Called after each entry with the number of those done. */
  readonly onEntry?: (done: number) => void;
  /** Hashes, or beginnings of hashes, that some entry must have. */
  readonly heads?: readonly string[];
}

/** Walk every log of the store. What cannot be read is a fault; the rest is walked all the same. */
export async function checkLog(snapshot: Snapshot, options: LogCheckOptions = {}): Promise<LogReport> {
  const walk = new Walk(options);
  const faults: Fault[] = snapshot.integrity().map((line) => ({
    code: "damaged_database",
    message: `Expected ok for the database's check of itself, got: ${line}`,
  }));
  try {
    for (const build of await buildsIn(snapshot)) await walk.build(snapshot, build);
    walk.compareRefs(await refsIn(snapshot));
  } catch (error) {
    faults.push(unreadable("Expected all of the database to be readable, got", error));
  }
  return { builds: walk.builds, blobs: walk.blobs, faults: [...faults, ...walk.faults], found: walk.found };
}

const unreadable = (sentence: string, error: unknown): Fault => ({
  code: "damaged_database",
  message: `${sentence}: ${error instanceof Error ? error.message : String(error)}`,
});

const refKey = (ref: { sha256: string; event: string }) => `${ref.sha256} ${ref.event}`;

class Walk {
  readonly builds: { build: string; events: number; head: string }[] = [];
  readonly blobs = new Map<string, string>();
  readonly faults: Fault[] = [];
  readonly found = new Map<string, { build: string; seq: number; behind: number }>();
  private readonly refs = new Map<string, BlobRefTable & { entry: string }>();
  /** Events whose text cannot be trusted: what the table says of them is not compared. */
  private readonly doubtful = new Set<string>();
  private readonly options: LogCheckOptions;
  private readonly whole: ReadonlySet<string>;
  private readonly beginnings: readonly string[];
  private done = 0;

  constructor(options: LogCheckOptions) {
    this.options = options;
    const heads = options.heads ?? [];
    this.whole = new Set(heads.filter((head) => head.length === GENESIS.length));
    this.beginnings = heads.filter((head) => head.length < GENESIS.length);
  }

  async build(snapshot: Snapshot, build: string): Promise<void> {
    const check = new ChainCheck(build);
    const columns = new ColumnCheck(check, this.faults);
    try {
      for await (const row of rowsOf(snapshot, build)) {
        const event = check.add(rowOf(row));
        if (event === undefined) this.doubtful.add(row.id);
        else this.take(event, `entry ${row.seq} of ${check.label}`);
        columns.add(row, event);
        this.look(row);
        this.done += 1;
        this.options.onEntry?.(this.done);
      }
    } catch (error) {
      this.faults.push(unreadable(`Expected to read ${check.label} beyond entry ${check.seq}, got`, error));
    }
    this.faults.push(...check.faults);
    this.builds.push({ build, events: check.seq, head: check.hash });
    for (const place of this.found.values()) if (place.build === build) place.behind = check.seq - place.seq;
  }

  private look({ hash, build, seq }: EventTable): void {
    if (this.whole.has(hash)) this.found.set(hash, { build, seq, behind: 0 });
    for (const head of this.beginnings) if (hash.startsWith(head)) this.found.set(head, { build, seq, behind: 0 });
  }

  private take(event: BenchEvent, entry: string): void {
    for (const blob of blobsOf(event)) {
      const ref = { ...blob, event: event.id, build: event.build, entry };
      this.refs.set(refKey(ref), ref);
      if (!this.blobs.has(blob.sha256)) this.blobs.set(blob.sha256, entry);
    }
  }

  /** The table of references is an index of what the events say, no more: it must say the same. */
  compareRefs(rows: readonly BlobRefTable[]): void {
    const left = new Map(this.refs);
    for (const row of rows) {
      const ref = left.get(refKey(row));
      left.delete(refKey(row));
      if (this.doubtful.has(row.event)) continue;
      if (ref === undefined)
        this.faults.push({
          code: "wrong_reference",
          message: `Expected references that the entries make, got one of event ${row.event} to ${row.sha256} that none makes`,
        });
      else if (ref.build !== row.build || ref.kind !== row.kind || ref.type !== row.type)
        this.faults.push({
          code: "wrong_reference",
          build: ref.build,
          message: `Expected the reference of ${ref.entry} to be a ${ref.kind} (${ref.type}) of its own build, got ${row.kind} (${row.type}) of ${row.build}`,
        });
    }
    for (const ref of left.values())
      this.faults.push({
        code: "missing_reference",
        build: ref.build,
        message: `Expected the reference of ${ref.entry} to its ${ref.kind} ${ref.sha256}, got none`,
      });
  }
}

/** Device, its number and the bundle stand in columns beside the hashed text. */
class ColumnCheck {
  private readonly check: ChainCheck;
  private readonly faults: Fault[];
  private readonly received = new Map<string, string>();

  constructor(check: ChainCheck, faults: Fault[]) {
    this.check = check;
    this.faults = faults;
  }

  add(row: EventTable, event: BenchEvent | undefined): void {
    this.received.set(row.id, row.received_at);
    if (event === undefined) return;
    this.compare(row, "device", row.device === event.device, event.device);
    this.compare(row, "device_seq", row.device_seq === event.deviceSeq, String(event.deviceSeq));
    // The text does not say with what an event came: with itself, with its utterance, or with an entry received in the same moment.
    const utterance = "utterance" in event.data ? event.data.utterance : undefined;
    const holds = row.bundle === row.id || row.bundle === utterance || this.received.get(row.bundle) === row.received_at;
    this.compare(row, "bundle", holds, "its own id, its utterance's or that of an entry it came with");
  }

  private compare(row: EventTable, column: "device" | "device_seq" | "bundle", holds: boolean, wanted: string): void {
    if (holds) return;
    this.faults.push({
      code: "wrong_column",
      build: row.build,
      seq: row.seq,
      message: `Expected ${wanted} for the ${column} of entry ${row.seq} of ${this.check.label}, got ${row[column]}`,
    });
  }
}
