// The SQLite store: one file, one writer.
import { Kysely } from "kysely";
import { SqlStore } from "../sql-store.ts";
import type { Tables } from "../tables.ts";
import { ImmediateSqliteDialect } from "./dialect.ts";
import { openDatabase } from "./open.ts";

/** Open the store in the database file at `path`, making it where there is none. */
export function openSqliteStore(path: string, now?: () => string): SqlStore {
  return new SqlStore(new Kysely<Tables>({ dialect: new ImmediateSqliteDialect(openDatabase(path)) }), now);
}
