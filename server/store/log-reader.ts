// A whole store read as of one moment, for checks and copies: nothing that is written meanwhile shows in it.
import type { Kysely } from "kysely";
import type { BlobRefTable, EventTable, Tables } from "./tables.ts";

const PAGE = 500;

/** What a database gives for reading it as of one moment. */
export interface Snapshot {
  readonly db: Kysely<Tables>;
  /** What the database's own check of itself finds; empty where it is sound. */
  integrity(): string[];
  close(): Promise<void>;
}

export async function buildsIn({ db }: Snapshot): Promise<string[]> {
  const rows = await db.selectFrom("event").select("build").distinct().orderBy("build").execute();
  return rows.map((row) => row.build);
}

export async function entriesIn({ db }: Snapshot): Promise<number> {
  const { count } = await db
    .selectFrom("event")
    .select((e) => e.fn.countAll<number>().as("count"))
    .executeTakeFirstOrThrow();
  return Number(count);
}

/** A build's rows in their order, a page at a time: a shop's whole life need not fit into memory. */
export async function* rowsOf({ db }: Snapshot, build: string): AsyncGenerator<EventTable> {
  for (let after = 0; ; ) {
    const rows = await db
      .selectFrom("event")
      .selectAll()
      .where("build", "=", build)
      .where("seq", ">", after)
      .orderBy("seq")
      .limit(PAGE)
      .execute();
    yield* rows;
    after = rows.at(-1)?.seq ?? after;
    if (rows.length < PAGE) return;
  }
}

export async function refsIn({ db }: Snapshot): Promise<BlobRefTable[]> {
  return await db.selectFrom("blob_ref").selectAll().execute();
}
