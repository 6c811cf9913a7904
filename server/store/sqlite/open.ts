// Opens the database file: pragmas set and read back, migrations applied.
import Database from "better-sqlite3";
import { storageRefusal } from "../storage.ts";
import { DamagedDatabase, damageOf } from "./damage.ts";
import { MIGRATIONS } from "./migrations.ts";
import { integrityOf } from "./snapshot.ts";
import { versionOf } from "./version.ts";

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
 * @throws DamagedDatabase when the file is damaged or another program's; NewerDatabase when it comes from a newer version
 */
export function openDatabase(path: string): Database.Database {
  const db = open(path);
  try {
    assertOurs(db, path);
    assertSound(db, path);
    for (const { name, set } of PRAGMAS) db.pragma(`${name} = ${set}`);
    assertPragmas(db);
    migrate(db);
    return db;
  } catch (error) {
    db.close();
    throw damageOf(error, path) ?? storageRefusal(error) ?? error;
  }
}

function open(path: string): Database.Database {
  try {
    return new Database(path);
  } catch (error) {
    throw damageOf(error, path) ?? storageRefusal(error) ?? error;
  }
}

/** Read every pragma back; a database that would not keep what it acknowledges is not opened. */
export function assertPragmas(db: Database.Database): void {
  for (const { name, read } of PRAGMAS) {
    const got: unknown = db.pragma(name, { simple: true });
    if (got !== read) throw new Error(`Expected ${read} for the database's ${name}, got ${String(got)}`);
  }
}

/** A look at all pages, quick enough for every start: a damaged file is not written to. */
function assertSound(db: Database.Database, path: string): void {
  const [fault] = integrityOf(db, "quick_check");
  if (fault !== undefined) throw new DamagedDatabase(path, `a damaged one (${fault})`);
}

/** A database that somebody else made is not given tables of ours. */
function assertOurs(db: Database.Database, path: string): void {
  const tables = db.prepare("SELECT name FROM sqlite_schema WHERE type = 'table'").pluck().all() as string[];
  if (tables.length > 0 && !tables.includes("migration")) throw new DamagedDatabase(path, "another program's database");
}

function migrate(db: Database.Database): void {
  db.exec("CREATE TABLE IF NOT EXISTS migration (id INTEGER PRIMARY KEY, name TEXT NOT NULL, applied_at TEXT NOT NULL)");
  const run = db.transaction(() => {
    const version = versionOf(db);
    for (const migration of MIGRATIONS) {
      if (migration.id <= version) continue;
      db.exec(migration.sql);
      db.prepare("INSERT INTO migration VALUES (?, ?, ?)").run(migration.id, migration.name, new Date().toISOString());
    }
  });
  run.immediate();
}
