// A build's export taken into a shop: its chain checked first, its numbers, times and hashes kept as they are.
import { type BenchEvent, exportSchema } from "../../shared/events/events.ts";
import { blobsOf } from "../store/blob-refs.ts";
import { canonicalJson } from "../store/canonical.ts";
import { ChainCheck, GENESIS } from "../store/chain.ts";
import type { SqlStore } from "../store/sql-store.ts";
import type { StoredRow } from "../store/store.ts";
import { MoveError } from "./manifest.ts";

export interface Imported {
  readonly build: string;
  readonly events: number;
  /** How many of them the shop did not have. */
  readonly added: number;
  /** Clips and photos its events rest on: they travel as files, not in the export. */
  readonly blobs: readonly string[];
}

/**
 * Import the text of an export. A build the shop has already may only grow by it.
 * @throws MoveError when the text is no export, its chain does not hold, or the shop's log says otherwise
 */
export async function importBuild(store: SqlStore, text: string): Promise<Imported> {
  const rows = readExport(text);
  const build = rows[0]?.build ?? "";
  const added = await store.adopt(rows);
  if (added === undefined)
    throw new MoveError(`Expected a log that goes on from this shop's log of build ${build}, got one that differs from it`);
  const blobs = rows.flatMap((row) => blobsOf(JSON.parse(row.body)).map((blob) => blob.sha256));
  return { build, events: rows.length, added, blobs: [...new Set(blobs)] };
}

/** Rows of an export, checked. @throws MoveError */
export function readExport(text: string): StoredRow[] {
  let json: unknown;
  try {
    json = JSON.parse(text);
  } catch {
    throw new MoveError("Expected JSON for a build's export, got other text");
  }
  const parsed = exportSchema.safeParse(json);
  if (!parsed.success) {
    const issue = parsed.error.issues[0];
    throw new MoveError(
      `Expected a build's export, got a file that differs at ${issue?.path.join(".") || "its top"}: ${issue?.message ?? ""}`,
    );
  }
  const { build, events } = parsed.data;
  const first = events[0];
  if (first?.event.type !== "build.opened")
    throw new MoveError("Expected build.opened for the export's first event, got another or none");
  const check = new ChainCheck(build);
  let prevHash = GENESIS;
  const rows = events.map(({ seq, hash, receivedAt, event }): StoredRow => {
    const row = { build, seq, id: event.id, bundle: event.id, body: textOf(event, seq), prevHash, hash, receivedAt };
    prevHash = hash;
    check.add(row);
    return row;
  });
  const fault = check.faults[0];
  if (fault !== undefined)
    throw new MoveError(`Expected a whole chain in the export, got a fault at event ${fault.seq}. ${fault.message}`);
  return rows;
}

/** The exact text of an event. One nested so deeply that it cannot be written never was in a log. */
function textOf(event: BenchEvent, seq: number): string {
  try {
    return canonicalJson(event);
  } catch {
    throw new MoveError(`Expected an entry that can be written for event ${seq}, got one nested too deeply`);
  }
}
