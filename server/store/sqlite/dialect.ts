// Kysely's SQLite dialect with transactions that take the write lock at once, so that a reader never has to be upgraded.
import type Database from "better-sqlite3";
import { CompiledQuery, type DatabaseConnection, type Driver, SqliteDialect, SqliteDriver } from "kysely";
import type { InPlace } from "./in-place.ts";

class ImmediateDriver extends SqliteDriver {
  private readonly file: Database.Database;
  private readonly inPlace: InPlace | undefined;
  constructor(file: Database.Database, inPlace: InPlace | undefined) {
    super({ database: file });
    this.file = file;
    this.inPlace = inPlace;
  }

  override async acquireConnection(): Promise<DatabaseConnection> {
    this.inPlace?.check();
    return await super.acquireConnection();
  }

  override async commitTransaction(connection: DatabaseConnection): Promise<void> {
    await super.commitTransaction(connection);
    // Looked at again before anybody is told that it is stored.
    this.inPlace?.check();
  }

  override async beginTransaction(connection: DatabaseConnection): Promise<void> {
    await connection.executeQuery(CompiledQuery.raw("begin immediate"));
  }

  override async rollbackTransaction(connection: DatabaseConnection): Promise<void> {
    // SQLite has rolled back by itself after a full disk; a second rollback would hide the first error.
    if (this.file.inTransaction) await connection.executeQuery(CompiledQuery.raw("rollback"));
  }
}

export class ImmediateSqliteDialect extends SqliteDialect {
  private readonly file: Database.Database;
  private readonly inPlace: InPlace | undefined;
  /** @param inPlace looked at before each use and after each commit */
  constructor(file: Database.Database, inPlace?: InPlace) {
    super({ database: file });
    this.file = file;
    this.inPlace = inPlace;
  }

  override createDriver(): Driver {
    return new ImmediateDriver(this.file, this.inPlace);
  }
}
