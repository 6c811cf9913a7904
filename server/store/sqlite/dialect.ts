// Kysely's SQLite dialect with transactions that take the write lock at once, so that a reader never has to be upgraded.
import type Database from "better-sqlite3";
import { CompiledQuery, type DatabaseConnection, type Driver, SqliteDialect, SqliteDriver } from "kysely";

class ImmediateDriver extends SqliteDriver {
  private readonly file: Database.Database;
  constructor(file: Database.Database) {
    super({ database: file });
    this.file = file;
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
  constructor(file: Database.Database) {
    super({ database: file });
    this.file = file;
  }

  override createDriver(): Driver {
    return new ImmediateDriver(this.file);
  }
}
