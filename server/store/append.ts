// Appending to the logs: one transaction for all events of a request, the same answer for what is stored already.
import type { Kysely, Transaction } from "kysely";
import type { BenchEvent } from "../../shared/events/events.ts";
import { expected, ServiceError } from "../errors.ts";
import { blobsOf } from "./blob-refs.ts";
import { canonicalJson } from "./canonical.ts";
import { chainHash } from "./chain.ts";
import { checkedRow, rowOf } from "./rows.ts";
import { storageRefusal } from "./storage.ts";
import type { Appended, StoredRow } from "./store.ts";
import type { EventTable, Tables } from "./tables.ts";
import type { Tips } from "./tips.ts";

/** SQLite allows 32766 bound values in one statement; a row has ten. */
const ROWS_A_STATEMENT = 500;

interface Draft {
  readonly event: BenchEvent;
  readonly body: string;
}

/** Append `events` in their order, all received at `receivedAt`. See `Store.append`. */
export async function appendEvents(
  db: Kysely<Tables>,
  tips: Tips,
  events: readonly BenchEvent[],
  receivedAt: string,
): Promise<Appended> {
  const drafts = distinct(events);
  try {
    // What has to be walked is walked before the write lock is taken.
    for (const build of new Set(events.map((event) => event.build))) await tips.end(db, build);
    const appended = await db.transaction().execute(async (trx) => {
      const known = await storedAlready(trx, drafts);
      const fresh = drafts.filter((draft) => !known.has(draft.event.id));
      const rows = await chain(trx, tips, fresh, receivedAt);
      await insertRows(
        trx,
        rows,
        fresh.map((draft) => draft.event),
      );
      for (const row of rows) known.set(row.id, rowOf(row));
      return { rows: events.map((event) => answer(known, event.id)), grown: rows };
    });
    for (const row of appended.grown) tips.grown(row.build, row);
    return { rows: appended.rows, added: appended.grown.length };
  } catch (error) {
    throw storageRefusal(error) ?? error;
  }
}

/** The same event twice in one request counts once; two events under one id are a conflict. */
function distinct(events: readonly BenchEvent[]): Draft[] {
  const byId = new Map<string, Draft>();
  for (const event of events) {
    const draft = { event, body: canonicalJson(event) };
    const before = byId.get(event.id);
    if (before !== undefined && before.body !== draft.body) throw conflict(event.id);
    if (before === undefined) byId.set(event.id, draft);
  }
  return [...byId.values()];
}

const conflict = (id: string) =>
  new ServiceError("id_conflict", expected("the content stored before", `event ${id}`, "other content under the same id"));

async function storedAlready(trx: Transaction<Tables>, drafts: readonly Draft[]): Promise<Map<string, StoredRow>> {
  const known = new Map<string, StoredRow>();
  for (let from = 0; from < drafts.length; from += ROWS_A_STATEMENT) {
    const part = drafts.slice(from, from + ROWS_A_STATEMENT);
    const ids = part.map((draft) => draft.event.id);
    for (const row of await trx.selectFrom("event").selectAll().where("id", "in", ids).execute())
      known.set(row.id, checkedRow(row));
  }
  for (const { event, body } of drafts) {
    const row = known.get(event.id);
    if (row !== undefined && row.body !== body) throw conflict(event.id);
  }
  return known;
}

async function chain(trx: Transaction<Tables>, tips: Tips, drafts: readonly Draft[], receivedAt: string): Promise<EventTable[]> {
  const ends = new Map<string, { seq: number; hash: string }>();
  const bundle = drafts[0]?.event.id ?? "";
  const rows: EventTable[] = [];
  for (const { event, body } of drafts) {
    const end = ends.get(event.build) ?? (await tips.end(trx, event.build));
    checkOpening(event, end.seq);
    const hash = chainHash(end.hash, receivedAt, body);
    const seq = end.seq + 1;
    rows.push({
      build: event.build,
      seq,
      id: event.id,
      device: event.device,
      device_seq: event.deviceSeq,
      bundle,
      body,
      prev_hash: end.hash,
      hash,
      received_at: receivedAt,
    });
    ends.set(event.build, { seq, hash });
  }
  return rows;
}

/** A log starts with the opening of its build and holds no second one. */
function checkOpening(event: BenchEvent, seq: number): void {
  const opens = event.type === "build.opened";
  if (seq === 0 && !opens) throw new ServiceError("unknown_build", expected("a build of this shop", "build", event.build));
  if (seq > 0 && opens)
    throw new ServiceError("build_exists", expected("a new id", "the build to open", `${event.build}, which is open already`));
}

/** Insert rows and the references of their events to blobs. */
export async function insertRows(
  trx: Transaction<Tables>,
  rows: readonly EventTable[],
  events: readonly BenchEvent[],
): Promise<void> {
  for (let from = 0; from < rows.length; from += ROWS_A_STATEMENT)
    await trx
      .insertInto("event")
      .values(rows.slice(from, from + ROWS_A_STATEMENT))
      .execute();
  const refs = events.flatMap((event) => blobsOf(event).map((blob) => ({ ...blob, event: event.id, build: event.build })));
  for (let from = 0; from < refs.length; from += ROWS_A_STATEMENT)
    await trx
      .insertInto("blob_ref")
      .values(refs.slice(from, from + ROWS_A_STATEMENT))
      .execute();
}

function answer(known: ReadonlyMap<string, StoredRow>, id: string): StoredRow {
  const row = known.get(id);
  if (row === undefined) throw new Error(`Expected event ${id} to be stored, got nothing`);
  return row;
}
