// Reading a database file as of one moment, without the right to write; and copying it as of one moment.
import Database from "better-sqlite3";
import { Kysely } from "kysely";
import type { Snapshot } from "../log-reader.ts";
import type { Tables } from "../tables.ts";
import { damageOf } from "./damage.ts";
import { ImmediateSqliteDialect } from "./dialect.ts";
import { versionOf } from "./version.ts";

/**
 * Open the database at `path` as it stands now; may be done beside whoever writes to it.
 * @throws DamagedDatabase when it is not there, or is no database of a shop that can be read; NewerDatabase
 */
export function openSqliteSnapshot(path: string): Snapshot {
  const file = openReadOnly(path);
  try {
    file.exec("BEGIN");
    // The first read is what settles the moment.
    file.prepare("SELECT 1 FROM event, blob_ref LIMIT 1").get();
    versionOf(file);
  } catch (error) {
    file.close();
    throw damageOf(error, path) ?? error;
  }
  const db = new Kysely<Tables>({ dialect: new ImmediateSqliteDialect(file) });
  return { db, integrity: () => integrityOf(file), close: async () => void file.close() };
}

/**
 * Copy the database at `from` to the new file `to` as of one moment, page by page: damage is copied as it is.
 * All pages go in one step, because a copy in many steps starts again whenever somebody writes in between.
 * @throws DamagedDatabase when `from` cannot be read
 */
export async function copySqliteDatabase(from: string, to: string): Promise<void> {
  const source = openReadOnly(from);
  try {
    await source.backup(to, { progress: () => ALL_PAGES });
    plainFile(to);
  } catch (error) {
    throw damageOf(error, from) ?? error;
  } finally {
    source.close();
  }
}

const ALL_PAGES = 0x7fffffff;

/** What the database's own check tells, at most a hundred lines; empty where it is sound. */
export function integrityOf(file: Database.Database, check: "integrity_check" | "quick_check" = "integrity_check"): string[] {
  try {
    const lines = file.pragma(check) as { [column: string]: string }[];
    return lines.flatMap((line) => Object.values(line)).filter((line) => line !== "ok");
  } catch (error) {
    return [error instanceof Error ? error.message : String(error)];
  }
}

function openReadOnly(path: string): Database.Database {
  try {
    const file = new Database(path, { readonly: true, fileMustExist: true });
    file.pragma("busy_timeout = 5000");
    return file;
  } catch (error) {
    throw damageOf(error, path) ?? error;
  }
}

/** A copy is one file: no journal beside it that a later copy might leave behind. */
function plainFile(path: string): void {
  const db = new Database(path);
  try {
    db.pragma("journal_mode = DELETE");
  } finally {
    db.close();
  }
}
