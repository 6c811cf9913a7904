// What the shop has acknowledged, kept outside of it, and how a shop's data stand against that.
import { createHash } from "node:crypto";
import Database from "better-sqlite3";
import { Blobs, hashFile } from "../../server/blobs/blobs.ts";
import { dataPaths } from "../../server/data-dir.ts";
import { canonicalJson } from "../../server/store/canonical.ts";
import { GENESIS } from "../../server/store/chain.ts";

export interface Acknowledged {
  readonly build: string;
  readonly id: string;
  readonly seq: number;
  readonly hash: string;
  /** The event's exact text, where the sender knows it. */
  readonly body: string;
}

export interface Standing {
  /** Acknowledged and not there. */
  lost: string[];
  /** There more than once. */
  duplicated: string[];
  /** There and not as acknowledged, or out of its chain. */
  corrupted: string[];
}

interface Row {
  build: string;
  seq: number;
  id: string;
  body: string;
  hash: string;
  received_at: string;
}

export class Ledger {
  readonly entries = new Map<string, Acknowledged>();
  readonly blobs = new Set<string>();

  acknowledge(build: string, seq: number, hash: string, event: { id: string }): void {
    this.entries.set(event.id, { build, id: event.id, seq, hash, body: canonicalJson(event) });
  }

  /**
   * Hold a data folder against what was acknowledged up to now (or the first `upTo` of it), reading the database by hand and
   * hashing the chain anew; blobs are hashed where `blobs` says so.
   */
  async standing(dir: string, options: { upTo?: number; blobs?: boolean } = {}): Promise<Standing> {
    const found: Standing = { lost: [], duplicated: [], corrupted: [] };
    const seen = readLog(dataPaths(dir).database, found);
    for (const { id, seq, hash, body, build } of [...this.entries.values()].slice(0, options.upTo)) {
      const row = seen.get(id);
      if (row === undefined) found.lost.push(id);
      else if (row.seq !== seq || row.hash !== hash || row.body !== body || row.build !== build) found.corrupted.push(id);
    }
    if (options.blobs === true) {
      const blobs = new Blobs(dataPaths(dir).blobs);
      for (const sha256 of this.blobs) {
        const got = await hashFile(blobs.path(sha256)).catch(() => undefined);
        if (got === undefined) found.lost.push(sha256);
        else if (got !== sha256) found.corrupted.push(sha256);
      }
    }
    return found;
  }
}

/** Every row by id; chains that do not hold and marks that stand twice are told in `found`. */
function readLog(path: string, found: Standing): Map<string, Row> {
  const db = new Database(path, { readonly: true, fileMustExist: true });
  const seen = new Map<string, Row>();
  const marks = new Set<string>();
  try {
    const ends = new Map<string, { seq: number; hash: string }>();
    for (const row of db.prepare("SELECT * FROM event ORDER BY build, seq").iterate() as IterableIterator<Row>) {
      const end = ends.get(row.build) ?? { seq: 0, hash: GENESIS };
      const hash = createHash("sha256").update(`${end.hash}\n${row.received_at}\n${row.body}`).digest("hex");
      if (row.seq !== end.seq + 1 || row.hash !== hash) found.corrupted.push(row.id);
      ends.set(row.build, { seq: row.seq, hash: row.hash });
      if (seen.has(row.id)) found.duplicated.push(row.id);
      seen.set(row.id, row);
      // Each parcel carries a mark of its own in what was said; stored twice under two ids it would show here.
      const mark = /"(?:text|statement)":"[^"]*(mark-[\w-]+)/.exec(row.body)?.[1];
      const once = mark === undefined || !/"type":"(utterance\.heard|photo\.taken)"/.test(row.body) ? undefined : mark;
      if (once !== undefined && marks.has(once)) found.duplicated.push(row.id);
      if (once !== undefined) marks.add(once);
    }
  } finally {
    db.close();
  }
  return seen;
}
