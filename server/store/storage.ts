// What a disk or a database refuses, as one plain sentence: the only place that knows their codes.
import type { ErrorCode } from "../../shared/api/errors.ts";
import { ServiceError } from "../errors.ts";

const REFUSALS: readonly (readonly [RegExp, ErrorCode, string])[] = [
  [
    /^(SQLITE_FULL|ENOSPC|EDQUOT)$/,
    "out_of_space",
    "Expected free space on the disk for this, got none: nothing of it was stored",
  ],
  [
    /^(SQLITE_READONLY|EROFS$|EACCES$|EPERM$)/,
    "storage_failed",
    "Expected to write into the shop's folder, got one that takes no writes: nothing of this was stored",
  ],
  [
    /^SQLITE_BUSY/,
    "storage_failed",
    "Expected the database to be free within five seconds, got one that another program writes to: nothing of this was stored",
  ],
  [
    /^(SQLITE_(IOERR|CANTOPEN)|EIO$|ENODEV$|ENXIO$)/,
    "storage_failed",
    "Expected to read and write the shop's folder, got a disk that fails or is gone: nothing of this was stored",
  ],
  [
    /^SQLITE_(CORRUPT|NOTADB)/,
    "damaged_log",
    "Expected a sound database, got a damaged one: nothing of this was stored; stop the shop and run verify",
  ],
];

/** The refusal for what a disk or a database threw; undefined for any other error. */
export function storageRefusal(error: unknown): ServiceError | undefined {
  const code = (error as { code?: unknown } | null)?.code;
  if (typeof code !== "string") return undefined;
  const row = REFUSALS.find(([pattern]) => pattern.test(code));
  return row === undefined ? undefined : new ServiceError(row[1], row[2]);
}

/** The folder that is written to is not the one that was opened. */
export const folderGone = () =>
  new ServiceError(
    "storage_failed",
    "Expected the shop's folder as it was opened, got it deleted, moved or replaced: nothing of this was stored; stop the shop and put the folder back",
  );
