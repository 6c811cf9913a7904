// Data folders of released versions, kept as those versions left them: each is brought up to today's version with every entry as
// it was, and a folder of a newer version is refused in one sentence by every command, unchanged.
import { createHash } from "node:crypto";
import { cp, readdir, readFile } from "node:fs/promises";
import { join } from "node:path";
import Database from "better-sqlite3";
import { afterEach, describe, expect, it, vi } from "vitest";
import { run as runBackup } from "../../../server/cli/commands/backup.ts";
import { run as runExport } from "../../../server/cli/commands/export.ts";
import { run as runServe } from "../../../server/cli/commands/serve.ts";
import { run as runVerify } from "../../../server/cli/commands/verify.ts";
import { dataPaths } from "../../../server/data-dir.ts";
import { verifyData } from "../../../server/move/verify.ts";
import { MIGRATIONS } from "../../../server/store/sqlite/migrations.ts";
import { bootShop, tempDir } from "../helper.ts";

const RELEASES = join(import.meta.dirname, "releases");
const BUILD = "01890000-0000-7000-8000-0000000000a1";

/** What each release's folder holds, as that release itself answered. */
const HELD = {
  "0.1.0": {
    version: 2,
    entries: 11,
    head: "b01d6162bf9ad8c7e3c0fc98ce751864477b0f5a6c3f54f510f3f98e0098c38e",
    readings: 2,
    photos: 1,
    // That release let a bore diameter in grams in.
    setAside: [[11, "wrong_unit"]],
  },
} as const;

async function copyOf(release: string): Promise<string> {
  const dir = join(await tempDir(), "shop");
  await cp(join(RELEASES, release), dir, { recursive: true });
  return dir;
}

/** Rows and versions, read by hand. */
function inside(dir: string) {
  const db = new Database(dataPaths(dir).database);
  try {
    const versions = db.prepare("SELECT id FROM migration ORDER BY id").pluck().all();
    return { rows: db.prepare("SELECT * FROM event ORDER BY seq").all(), versions };
  } finally {
    db.close();
  }
}

const hashOf = async (file: string) =>
  createHash("sha256")
    .update(await readFile(file))
    .digest("hex");

describe("a data folder of a released version", () => {
  it("is kept for every one that is named here", async () => {
    expect(await readdir(RELEASES)).toEqual(Object.keys(HELD));
  });

  it.each(Object.entries(HELD))("%s is brought up to today's, entry for entry", async (release, held) => {
    const dir = await copyOf(release);
    const before = inside(dir);
    expect([before.versions.at(-1), before.rows.length]).toEqual([held.version, held.entries]);
    const { app, data } = await bootShop({ dir });
    expect(await data.store.head(BUILD)).toEqual({ build: BUILD, seq: held.entries, hash: held.head });
    const summary = (await app.inject(`/api/builds/${BUILD}`)).json();
    expect(summary.counts).toMatchObject({ readings: held.readings, photos: held.photos });
    expect(summary.setAside.map(({ seq, code }: { seq: number; code: string }) => [seq, code])).toEqual(held.setAside);
    const said = await app.inject({ method: "POST", url: `/api/builds/${BUILD}/utterances`, payload: { text: "bore 3 3.8750" } });
    expect(said.statusCode).toBe(200);
    expect((await verifyData(dir)).faults).toEqual([]);
    await app.close();
    await data.close();
    const after = inside(dir);
    expect(after.versions).toEqual(MIGRATIONS.map(({ id }) => id));
    expect(after.rows.slice(0, held.entries)).toEqual(before.rows);
  });
});

describe("a data folder of a newer version", () => {
  let said = "";
  const listen = () => {
    said = "";
    for (const stream of [process.stdout, process.stderr])
      vi.spyOn(stream, "write").mockImplementation((chunk) => {
        said += chunk;
        return true;
      });
  };
  afterEach(() => vi.restoreAllMocks());

  const COMMANDS: readonly (readonly [string, (data: string, out: string) => Promise<number>])[] = [
    ["serve", (data) => runServe([], { port: "0", data, log: "silent", nameConstraints: true, backupHours: "24" } as never)],
    ["verify", (data) => runVerify([], { data })],
    ["backup", (data, out) => runBackup([out], { data, keys: true })],
    ["export", (data) => runExport([], { data })],
  ];

  it.each(COMMANDS)("is refused by %s in one sentence and left as it is", async (_name, run) => {
    const dir = await copyOf("0.1.0");
    const { database } = dataPaths(dir);
    const db = new Database(database);
    db.prepare("INSERT INTO migration VALUES (999, 'of the future', '2030-01-01T00:00:00.000Z')").run();
    db.pragma("wal_checkpoint(TRUNCATE)");
    db.close();
    const before = await hashOf(database);
    listen();
    const code = await run(dir, join(dir, "..", "copy"));
    vi.restoreAllMocks();
    const newest = MIGRATIONS.at(-1)?.id;
    expect([code, said]).toEqual([
      1,
      `Expected a database of version ${newest} or older, got version 999: use a newer thoubook\n`,
    ]);
    expect(await hashOf(database)).toBe(before);
    expect((await readdir(join(dir, ".."))).sort()).toEqual(["shop"]);
  });
});
