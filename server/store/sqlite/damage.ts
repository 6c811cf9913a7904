// What SQLite says of a file it cannot use, as one plain sentence.
import { PlainError } from "../../errors.ts";

/** The database cannot be used as it is. The file is left as it was. */
export class DamagedDatabase extends PlainError {
  override readonly name = "DamagedDatabase";
  constructor(path: string, got: string) {
    super(
      `Expected a sound database of a shop in ${path}, got ${got}: leave the folder as it is and restore the newest backup into a new folder`,
    );
  }
}

const GOT: readonly (readonly [RegExp, string])[] = [
  [/^SQLITE_NOTADB/, "a file that is no database, or one whose beginning is damaged"],
  [/^SQLITE_CORRUPT/, "a damaged or cut-off one"],
  [/^SQLITE_CANTOPEN/, "none that can be opened"],
  [/^SQLITE_ERROR$/, "a database without this shop's tables"],
];

/** The refusal for what SQLite threw while the file at `path` was opened or read; undefined for any other error. */
export function damageOf(error: unknown, path: string): DamagedDatabase | undefined {
  const code = (error as { code?: unknown } | null)?.code;
  if (typeof code !== "string") return undefined;
  const row = GOT.find(([pattern]) => pattern.test(code));
  return row === undefined ? undefined : new DamagedDatabase(path, `${row[1]} (${code})`);
}
