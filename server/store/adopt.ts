// Taking over rows of an export: numbers, times and hashes are kept; a log that is here already may only grow.
import type { Kysely } from "kysely";
import type { BenchEvent } from "../../shared/events/events.ts";
import { insertRows } from "./append.ts";
import { storageRefusal } from "./storage.ts";
import type { StoredRow } from "./store.ts";
import type { Tables } from "./tables.ts";
import type { Tips } from "./tips.ts";

/**
 * Insert the rows of one build's whole log, checked before. Gives how many were new; undefined, with nothing stored,
 * when the log here differs or goes further.
 * @throws ServiceError `damaged_log` when the log here does not hold, `out_of_space`, `storage_failed`
 */
export async function adoptRows(db: Kysely<Tables>, tips: Tips, rows: readonly StoredRow[]): Promise<number | undefined> {
  const build = rows[0]?.build ?? "";
  const added = await db
    .transaction()
    .execute(async (trx) => {
      await tips.end(trx, build);
      const here = await trx.selectFrom("event").select(["seq", "hash"]).where("build", "=", build).orderBy("seq").execute();
      if (here.some((row, index) => rows[index]?.hash !== row.hash)) return undefined;
      const fresh = rows.slice(here.length);
      const events = fresh.map((row) => JSON.parse(row.body) as BenchEvent);
      await insertRows(
        trx,
        fresh.map((row, index) => ({
          build,
          seq: row.seq,
          id: row.id,
          device: events[index]?.device ?? "",
          device_seq: events[index]?.deviceSeq ?? 0,
          bundle: utteranceOf(events[index]) ?? row.bundle,
          body: row.body,
          prev_hash: row.prevHash,
          hash: row.hash,
          received_at: row.receivedAt,
        })),
        events,
      );
      return fresh.length;
    })
    .catch((error: unknown) => {
      throw storageRefusal(error) ?? error;
    });
  const last = rows.at(-1);
  if (added !== undefined && added > 0 && last !== undefined) tips.grown(build, last);
  return added;
}

/** What came of an utterance belongs to its bundle. */
function utteranceOf(event: BenchEvent | undefined): string | undefined {
  return event !== undefined && "utterance" in event.data ? event.data.utterance : undefined;
}
