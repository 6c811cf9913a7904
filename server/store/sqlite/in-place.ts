// Notices that the database's files were deleted or replaced under an open connection: SQLite would go on writing into nothing.
import { type Stats, statSync } from "node:fs";
import { folderGone } from "../storage.ts";

/** Compares the files at the database's paths with those that were there when it was opened. */
export class InPlace {
  private readonly path: string;
  private readonly opened = new Map<string, string>();

  constructor(path: string) {
    this.path = path;
    this.check();
  }

  /** @throws ServiceError `storage_failed` when a file is not the one that was opened */
  check(): void {
    for (const suffix of ["", "-wal"]) {
      const got = nameOf(statSync(this.path + suffix, { throwIfNoEntry: false }));
      const wanted = this.opened.get(suffix);
      // The journal comes with the first use; from then on it stays while the connection is open.
      if (wanted === undefined && got !== undefined) this.opened.set(suffix, got);
      else if (wanted !== got) throw folderGone();
    }
  }
}

const nameOf = (stats: Stats | undefined) => (stats === undefined ? undefined : `${stats.dev}:${stats.ino}`);
