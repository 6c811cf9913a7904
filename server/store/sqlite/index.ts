// The SQLite store: one file, one writer.
import { Kysely } from "kysely";
import { SqlStore, type SqlStoreOptions } from "../sql-store.ts";
import type { Tables } from "../tables.ts";
import { ImmediateSqliteDialect } from "./dialect.ts";
import { InPlace } from "./in-place.ts";
import { openDatabase } from "./open.ts";

/**
 * Open the store in the database file at `path`, making it where there is none.
 * @throws DamagedDatabase when the file cannot be used; it is left as it was
 */
export function openSqliteStore(path: string, options: SqlStoreOptions = {}): SqlStore {
  const file = openDatabase(path);
  const dialect = new ImmediateSqliteDialect(file, new InPlace(path));
  return new SqlStore(new Kysely<Tables>({ dialect }), options);
}
