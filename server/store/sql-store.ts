// The event store over SQL: reads, and the one transaction that appends. Serves any Kysely dialect.
import type { Kysely } from "kysely";
import type { BenchEvent } from "../../shared/events/events.ts";
import { MAX_DEVICE_SEQ } from "../../shared/events/meaning.ts";
import { adoptRows } from "./adopt.ts";
import { appendEvents } from "./append.ts";
import { checkedRow } from "./rows.ts";
import type { Appended, BlobRef, Head, Store, StoredRow } from "./store.ts";
import type { Tables } from "./tables.ts";
import { Tips } from "./tips.ts";

export interface SqlStoreOptions {
  /** The clock of receipt, ISO 8601. */
  readonly now?: () => string;
  /** Told of every new head that is stored for certain. */
  readonly onGrown?: (head: Head) => void;
}

export class SqlStore implements Store {
  readonly db: Kysely<Tables>;
  private readonly now: () => string;
  private readonly tips: Tips;

  constructor(db: Kysely<Tables>, options: SqlStoreOptions = {}) {
    this.db = db;
    this.now = options.now ?? (() => new Date().toISOString());
    this.tips = new Tips((build, tip) => options.onGrown?.({ build, ...tip }));
  }

  append(events: readonly BenchEvent[]): Promise<Appended> {
    return appendEvents(this.db, this.tips, events, this.now());
  }

  /** Take over a build's exported log. See `adoptRows`. */
  adopt(rows: readonly StoredRow[]): Promise<number | undefined> {
    return adoptRows(this.db, this.tips, rows);
  }

  async heads(): Promise<Head[]> {
    const newest = this.db
      .selectFrom("event")
      .select(["build", (e) => e.fn.max("seq").as("top")])
      .groupBy("build")
      .as("newest");
    return await this.db
      .selectFrom("event")
      .innerJoin(newest, (on) => on.onRef("newest.build", "=", "event.build").onRef("newest.top", "=", "event.seq"))
      .select(["event.build", "event.seq", "event.hash"])
      .orderBy("event.build")
      .execute();
  }

  async head(build: string): Promise<Head | undefined> {
    return await this.db
      .selectFrom("event")
      .select(["build", "seq", "hash"])
      .where("build", "=", build)
      .orderBy("seq", "desc")
      .limit(1)
      .executeTakeFirst();
  }

  async hashAt(build: string, seq: number): Promise<string | undefined> {
    const row = await this.db
      .selectFrom("event")
      .select("hash")
      .where("build", "=", build)
      .where("seq", "=", seq)
      .executeTakeFirst();
    return row?.hash;
  }

  async rowsAfter(build: string, after: number, limit: number): Promise<StoredRow[]> {
    const rows = await this.db
      .selectFrom("event")
      .selectAll()
      .where("build", "=", build)
      .where("seq", ">", after)
      .orderBy("seq")
      .limit(limit)
      .execute();
    return rows.map(checkedRow);
  }

  async find(id: string): Promise<StoredRow | undefined> {
    const row = await this.db.selectFrom("event").selectAll().where("id", "=", id).executeTakeFirst();
    return row === undefined ? undefined : checkedRow(row);
  }

  async bundle(id: string): Promise<StoredRow[]> {
    const rows = await this.db.selectFrom("event").selectAll().where("bundle", "=", id).orderBy("seq").execute();
    return rows.map(checkedRow);
  }

  async blobRef(sha256: string): Promise<BlobRef | undefined> {
    return await this.db.selectFrom("blob_ref").selectAll().where("sha256", "=", sha256).limit(1).executeTakeFirst();
  }

  async blobInBuild(sha256: string, build: string): Promise<boolean> {
    const row = await this.db
      .selectFrom("blob_ref")
      .select("sha256")
      .where("build", "=", build)
      .where("sha256", "=", sha256)
      .limit(1)
      .executeTakeFirst();
    return row !== undefined;
  }

  async blobRefs(): Promise<BlobRef[]> {
    return await this.db.selectFrom("blob_ref").selectAll().orderBy("sha256").execute();
  }

  async nextDeviceSeq(device: string): Promise<number> {
    const row = await this.db
      .selectFrom("event")
      .select("device_seq")
      .where("device", "=", device)
      // Logs of older versions hold numbers that cannot be counted on from.
      .where("device_seq", "<=", MAX_DEVICE_SEQ)
      .orderBy("device_seq", "desc")
      .limit(1)
      .executeTakeFirst();
    return row === undefined ? 0 : row.device_seq + 1;
  }

  async close(): Promise<void> {
    await this.db.destroy();
  }
}
