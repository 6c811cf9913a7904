// Checks a data folder without changing it: the database itself, every chain, every clip and photo, and what was witnessed.
// What must be there is taken from the hashed entries alone; every index beside them is compared with them.
import { Blobs, hashFile } from "../blobs/blobs.ts";
import { dataPaths } from "../data-dir.ts";
import { PlainError } from "../errors.ts";
import { readIdentity } from "../identity.ts";
import { entriesIn, type Snapshot } from "../store/log-reader.ts";
import { openSqliteSnapshot } from "../store/sqlite/snapshot.ts";
import { NewerDatabase } from "../store/sqlite/version.ts";
import { readWitness } from "../store/witness.ts";
import { checkLog, type LogReport } from "./check-log.ts";
import type { Fault } from "./fault.ts";

export interface VerifyReport {
  readonly ok: boolean;
  readonly builds: readonly { readonly build: string; readonly events: number; readonly head: string }[];
  readonly blobs: { readonly checked: number; readonly orphans: number };
  /** Where the heads that were asked for stand, and how many entries came after. */
  readonly heads?: readonly { readonly head: string; readonly build: string; readonly seq: number; readonly behind: number }[];
  readonly faults: readonly Fault[];
}

export type Progress = (what: "entries" | "clips and photos" | "copied clips and photos", done: number, of: number) => void;

export interface VerifyOptions {
  /** Hashes of entries kept outside (printed, on a phone, in a manifest), or their beginnings: each must be in a log. */
  readonly heads?: readonly string[];
  readonly onProgress?: Progress;
}

/** Re-hash everything under `dir`. Reads only; may run beside a server. @throws NewerDatabase */
export async function verifyData(dir: string, options: VerifyOptions = {}): Promise<VerifyReport> {
  const paths = dataPaths(dir);
  const faults: Fault[] = [];
  // Before the moment of the log is settled: what was witnessed by then must be in it.
  const witnessed = await read(() => readWitness(paths.witness), faults);
  await read(() => readIdentity(paths.identity), faults);
  const snapshot = await read(async () => openSqliteSnapshot(paths.database), faults, "damaged_database");
  try {
    const heads = [...(options.heads ?? []), ...(witnessed?.heads.map((head) => head.hash) ?? [])];
    const report = await verifyParts(snapshot, new Blobs(paths.blobs), { ...options, heads });
    for (const head of witnessed?.heads ?? [])
      if (snapshot !== undefined && !report.found.has(head.hash))
        faults.push({
          code: "lost_entries",
          build: head.build,
          seq: head.seq,
          message: `Expected entry ${head.seq} of build ${head.build}, which this shop held on ${witnessed?.at}, got a log without it`,
        });
    const asked = (options.heads ?? []).flatMap((head) => {
      const place = report.found.get(head);
      if (place !== undefined) return [{ head, ...place }];
      faults.push({ code: "unknown_head", message: `Expected an entry with the hash ${head}, got none in any log` });
      return [];
    });
    const all = [...faults, ...report.faults];
    return {
      ok: all.length === 0,
      builds: report.builds,
      blobs: report.blobs,
      ...(options.heads === undefined ? {} : { heads: asked }),
      faults: all,
    };
  } finally {
    await snapshot?.close();
  }
}

async function read<T>(
  work: () => Promise<T>,
  faults: Fault[],
  code: "damaged_file" | "damaged_database" = "damaged_file",
): Promise<T | undefined> {
  try {
    return await work();
  } catch (error) {
    if (!(error instanceof PlainError) || error instanceof NewerDatabase) throw error;
    faults.push({ code, message: error.message });
    return undefined;
  }
}

export interface PartsReport extends Pick<VerifyReport, "builds" | "blobs" | "faults"> {
  readonly found: LogReport["found"];
  /** Clips and photos that the entries name. */
  readonly named: ReadonlySet<string>;
}

/** The same for a store as of one moment and any folder of blobs. Without a store the files are checked by their names alone. */
export async function verifyParts(
  snapshot: Snapshot | undefined,
  blobs: Blobs,
  options: VerifyOptions = {},
): Promise<PartsReport> {
  const { onProgress } = options;
  const log = snapshot === undefined ? NO_LOG : await checkLogs(snapshot, options);
  const files = new Set<string>();
  for await (const name of blobs.names()) files.add(name);
  const all = new Set([...log.blobs.keys(), ...files]);
  const faults: Fault[] = [];
  let done = 0;
  for (const sha256 of all) {
    const fault = await checkBlob(blobs, sha256, log.blobs.get(sha256));
    if (fault !== undefined) faults.push(fault);
    done += 1;
    onProgress?.("clips and photos", done, all.size);
  }
  const orphans = [...files].filter((name) => !log.blobs.has(name)).length;
  return {
    builds: log.builds,
    blobs: { checked: all.size, orphans },
    faults: [...log.faults, ...faults],
    found: log.found,
    named: new Set(log.blobs.keys()),
  };
}

const NO_LOG: LogReport = { builds: [], blobs: new Map(), faults: [], found: new Map() };

async function checkLogs(snapshot: Snapshot, { heads, onProgress }: VerifyOptions): Promise<LogReport> {
  const of = onProgress === undefined ? 0 : await entriesIn(snapshot).catch(() => 0);
  return checkLog(snapshot, {
    ...(heads === undefined ? {} : { heads }),
    ...(onProgress === undefined ? {} : { onEntry: (done: number) => onProgress("entries", done, of) }),
  });
}

/** @param entry the entry that rests on it, in words; undefined for an orphan */
async function checkBlob(blobs: Blobs, sha256: string, entry: string | undefined): Promise<Fault | undefined> {
  const whose = entry === undefined ? "that no entry names" : `of ${entry}`;
  const got = await hashFile(blobs.path(sha256)).catch((error: NodeJS.ErrnoException) => error);
  if (got === sha256) return undefined;
  if (typeof got === "string")
    return { code: "wrong_blob", sha256, message: `Expected ${sha256} for the SHA-256 of the file ${whose}, got ${got}` };
  const found = got.code === "ENOENT" ? "none" : `one that cannot be read (${got.code})`;
  return { code: "missing_blob", sha256, message: `Expected the file ${sha256} ${whose}, got ${found}` };
}
