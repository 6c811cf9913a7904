// Which versions of the database this program knows. They go forward only: a folder is brought up, never down.
import type Database from "better-sqlite3";
import { PlainError } from "../../errors.ts";
import { MIGRATIONS } from "./migrations.ts";

/** The database comes from a newer program. Nothing in it was changed. */
export class NewerDatabase extends PlainError {
  override readonly name = "NewerDatabase";
}

/**
 * The version of a database; 0 for one without any.
 * @throws NewerDatabase when this program does not know it
 */
export function versionOf(db: Database.Database): number {
  const version = (db.prepare("SELECT max(id) FROM migration").pluck().get() as number | null) ?? 0;
  const newest = MIGRATIONS.at(-1)?.id ?? 0;
  if (version > newest)
    throw new NewerDatabase(`Expected a database of version ${newest} or older, got version ${version}: use a newer thoubook`);
  return version;
}
