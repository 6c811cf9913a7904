// Opens the database file: pragmas set and read back, migrations applied.
import Database from "better-sqlite3";
import { MIGRATIONS } from "./migrations.ts";

/** Pragmas set on every connection, and what reading them back must give. */
const PRAGMAS = [
  { name: "journal_mode", set: "WAL", read: "wal" },
  // WAL alone would mean NORMAL here, which may lose the last commits when the power goes.
  { name: "synchronous", set: "FULL", read: 2 },
  { name: "foreign_keys", set: "ON", read: 1 },
  { name: "busy_timeout", set: "5000", read: 5000 },
] as const;

/**
 * Open or create the database at `path` for writing.
 * @throws Error when a pragma does not hold, or the file comes from a newer version
 */
export function openDatabase(path: string): Database.Database {
  const db = new Database(path);
  try {
    for (const { name, set } of PRAGMAS) db.pragma(`${name} = ${set}`);
    assertPragmas(db);
    migrate(db);
    return db;
  } catch (error) {
    db.close();
    throw error;
  }
}

/** Read every pragma back; a database that would not keep what it acknowledges is not opened. */
export function assertPragmas(db: Database.Database): void {
  for (const { name, read } of PRAGMAS) {
    const got: unknown = db.pragma(name, { simple: true });
    if (got !== read) throw new Error(`Expected ${read} for the database's ${name}, got ${String(got)}`);
  }
}

/** Open an existing database without the right to write. */
export function openDatabaseReadOnly(path: string): Database.Database {
  const db = new Database(path, { readonly: true, fileMustExist: true });
  db.pragma("busy_timeout = 5000");
  return db;
}

function migrate(db: Database.Database): void {
  db.exec("CREATE TABLE IF NOT EXISTS migration (id INTEGER PRIMARY KEY, name TEXT NOT NULL, applied_at TEXT NOT NULL)");
  const run = db.transaction(() => {
    const applied = db.prepare("SELECT id FROM migration ORDER BY id").pluck().all() as number[];
    const newest = MIGRATIONS.at(-1)?.id ?? 0;
    const unknown = applied.find((id) => id > newest);
    if (unknown !== undefined)
      throw new Error(`Expected a database of version ${newest} or older, got version ${unknown}: use a newer thoubook`);
    for (const migration of MIGRATIONS) {
      if (applied.includes(migration.id)) continue;
      db.exec(migration.sql);
      db.prepare("INSERT INTO migration VALUES (?, ?, ?)").run(migration.id, migration.name, new Date().toISOString());
    }
  });
  run.immediate();
}
