// Power cuts: a loaded shop is traced once, and the disk as it was at many moments is rebuilt from the trace, with all that was
// not synced gone, or with random sectors and names of it left. On each such disk the shop is opened and held against what it
// had answered by then. (A cut within one process cannot be had by killing: the system keeps what a killed process wrote.)
import { spawnSync } from "node:child_process";
import { createReadStream } from "node:fs";
import { mkdir, rm, writeFile } from "node:fs/promises";
import { dirname, join } from "node:path";
import { createInterface } from "node:readline";
import Database from "better-sqlite3";
import { Blobs, hashFile } from "../../server/blobs/blobs.ts";
import { dataPaths, openShopData } from "../../server/data-dir.ts";
import { verifyData } from "../../server/move/verify.ts";
import { Ledger } from "./ledger.ts";
import { Load, type Random } from "./load.ts";
import { type Program, serve } from "./shop-process.ts";
import { TRACED, TraceReader } from "./trace.ts";

export interface CutReport {
  readonly cuts: number;
  /** Requests of the traced load that were answered, and the syncs of files and folders from the start to the last of them. */
  readonly answered: number;
  readonly syncs: number;
  /** Answers that went out while the log's last pages were not synced. */
  readonly unsynced: number;
  readonly lost: number;
  readonly faults: readonly string[];
}

/** Whether a trace can be made here. */
export const canTrace = (): boolean => spawnSync("strace", ["-o", "/dev/null", "true"]).status === 0;

/** Run a loaded shop under trace until `requests` were answered. */
async function traced(program: Program, shop: string, file: string, requests: number, random: Random): Promise<void> {
  const before = ["strace", "-f", "-xx", "-s", "1000000", "-e", `trace=${TRACED}`, "-o", file];
  const run = serve(program, shop, before);
  const url = await run.open;
  if (url === undefined) throw new Error(`Expected a traced shop to open, got: ${run.err()}`);
  const load = new Load(new Ledger(), random);
  await load.run(url, 2, () => load.requests >= requests);
  // The tracer takes no signal; the shop ends by its leash.
  run.child.stdin?.end();
  await run.ended;
}

interface Answered {
  readonly hashes: ReadonlySet<string>;
  readonly blobs: ReadonlySet<string>;
}

/** Open the shop that a cut left and tell what is not as it was answered. */
async function check(dir: string, answered: Answered): Promise<{ lost: number; faults: string[] }> {
  await (await openShopData(dir)).close();
  const db = new Database(dataPaths(dir).database, { readonly: true });
  const kept = new Set(db.prepare("SELECT hash FROM event").pluck().all() as string[]);
  db.close();
  let lost = [...answered.hashes].filter((hash) => !kept.has(hash)).length;
  const blobs = new Blobs(dataPaths(dir).blobs);
  for (const sha256 of answered.blobs) if ((await hashFile(blobs.path(sha256)).catch(() => "")) !== sha256) lost += 1;
  const { faults } = await verifyData(dir);
  return { lost, faults: faults.map(({ code, message }) => `${code}: ${message}`) };
}

/** @param cuts how many moments, each cut twice: with nothing unsynced left, and with some of it */
export async function powerCuts(options: { program: Program; dir: string; cuts: number; random: Random }): Promise<CutReport> {
  const { program, dir, cuts, random } = options;
  const shop = join(dir, "traced");
  const file = join(dir, "trace");
  await mkdir(shop, { recursive: true });
  await traced(program, shop, file, Math.max(20, Math.ceil(cuts / 2)), random);
  let lines = 0;
  for await (const _line of createInterface({ input: createReadStream(file) })) lines += 1;
  const moments = new Set(Array.from({ length: cuts }, () => Math.floor(random() * lines)));
  const reader = new TraceReader(shop);
  const hashes = new Set<string>();
  const blobs = new Set<string>();
  const found = { cuts: 0, answered: 0, syncs: 0, unsynced: 0, lost: 0, faults: [] as string[] };
  let at = 0;
  for await (const line of createInterface({ input: createReadStream(file) })) {
    const text = reader.take(line);
    if (text?.startsWith("HTTP/1.1 2")) {
      found.answered += 1;
      found.syncs = reader.disk.syncs;
      if (reader.disk.unsynced("thoubook.db-wal") > 0) found.unsynced += 1;
      for (const [, hash = ""] of text.matchAll(/"hash":"([0-9a-f]{64})"/g)) hashes.add(hash);
      for (const [, sha256 = ""] of text.matchAll(/"(?:sha256|clip)":"([0-9a-f]{64})"/g)) blobs.add(sha256);
    }
    at += 1;
    if (!moments.has(at)) continue;
    for (const left of [undefined, random]) {
      const after = join(dir, "after-cut");
      await mkdir(after, { recursive: true });
      for (const [name, bytes] of reader.disk.afterCut(left)) {
        await mkdir(dirname(join(after, name)), { recursive: true });
        await writeFile(join(after, name), bytes);
      }
      const { lost, faults } = await check(after, { hashes, blobs });
      found.cuts += 1;
      found.lost += lost;
      found.faults.push(...faults);
      await rm(after, { recursive: true, force: true });
    }
  }
  return found;
}
