// Any one flipped bit is found, and what it hit is named: in the database, in its journal, in a clip or photo, in a backup and its
// manifest, in an export. BITS=N tries so many of each instead of a few. Told apart are bits where nothing is kept (every row of
// every table reads as before), and those in the tables of pairings and links, which nothing hashes.
import { cp, mkdir, readdir, readFile, rm, writeFile } from "node:fs/promises";
import { join } from "node:path";
import Database from "better-sqlite3";
import { afterAll, beforeAll, describe, expect, it, vi } from "vitest";
import { dataPaths, openShopData } from "../../../server/data-dir.ts";
import { PlainError } from "../../../server/errors.ts";
import { backup } from "../../../server/move/backup.ts";
import { exportJson } from "../../../server/move/export-build.ts";
import { readExport } from "../../../server/move/import-build.ts";
import { restore } from "../../../server/move/restore.ts";
import { verifyData } from "../../../server/move/verify.ts";
import { readWitness } from "../../../server/store/witness.ts";
import { bootShop, clipForm, makeWav, multipart, openDemoBuild, takeClosers, tempDir } from "../helper.ts";
import { goodJpeg } from "../routes/bad-files.ts";

vi.setConfig({ testTimeout: 1_800_000, hookTimeout: 600_000 });

const BITS = Number(process.env.BITS ?? 25);
let root: string;
/** A shop that was closed in order, one whose machine went off with entries in its journal, a backup, an export. */
let closed: string;
let cut: string;
let copy: string;
let exported: string;
let close: () => Promise<void>;

beforeAll(async () => {
  root = await tempDir();
  closed = join(root, "closed");
  cut = join(root, "cut");
  copy = join(root, "copy");
  const { app, data } = await bootShop({ dir: closed });
  const build = await openDemoBuild(app);
  const say = (text: string) => app.inject({ method: "POST", url: `/api/builds/${build}/utterances`, payload: { text } });
  for (let i = 0; i < 12; i += 1) await say(`bore ${(i % 4) + 1} 3.875${i % 10}`);
  await app.inject({ method: "POST", url: `/api/builds/${build}/clips`, ...clipForm(makeWav(0.1)) });
  const photo = multipart([{ name: "photo", filename: "a.jpg", type: "image/jpeg", value: await goodJpeg() }]);
  await app.inject({ method: "POST", url: `/api/builds/${build}/photos`, ...photo });
  const { db } = data.store;
  const at = "2026-03-04T10:11:12.000Z";
  await db
    .insertInto("device")
    .values({
      id: "d",
      name: "Phone",
      role: "bench",
      door: "secure",
      token_hash: "a".repeat(64),
      paired_at: at,
      last_seen_at: at,
      revoked_at: at,
    })
    .execute();
  await db
    .insertInto("link")
    .values({ id: "l", build, token_hash: "b".repeat(64), made_at: at, expires_at: at, revoked_at: at, door: "secure" } as never)
    .execute();
  // The note of the heads follows the log by up to two seconds: a journal's newest entries are not covered before that.
  const head = await data.store.head(build);
  const { witness } = dataPaths(closed);
  await vi.waitFor(async () => expect((await readWitness(witness))?.heads[0]?.seq).toBe(head?.seq), { timeout: 60_000 });
  exported = await exportJson(data.store, build);
  await backup(closed, copy);
  await app.close();
  // The journal as a cut leaves it: more entries, and the note of the heads, but no orderly end.
  await cp(closed, join(root, "was"), { recursive: true });
  await data.close();
  await rm(closed, { recursive: true });
  await cp(join(root, "was"), cut, { recursive: true });
  const last = await openShopData(join(root, "was"));
  await last.close();
  await cp(join(root, "was"), closed, { recursive: true });
  close = takeClosers();
});
afterAll(() => close());

/** The log and its index of references; then every row of every table, and how the tables are made. */
function contents(dir: string): { log: string; all: string } {
  const db = new Database(dataPaths(dir).database);
  try {
    const tables = db.prepare("SELECT name, sql FROM sqlite_schema ORDER BY name").all() as { name: string; sql: string }[];
    const rowsOf = (name: string) => db.prepare(`SELECT * FROM ${name} ORDER BY 1, 2`).all();
    const rows = tables.filter(({ sql }) => sql?.startsWith("CREATE TABLE")).map(({ name }) => rowsOf(name));
    return { log: JSON.stringify([rowsOf("event"), rowsOf("blob_ref")]), all: JSON.stringify([tables, rows]) };
  } finally {
    db.close();
  }
}

interface Tally {
  found: number;
  /** Where nothing is kept. */
  empty: number;
  /** In who is paired and what was linked: nothing hashes those, and no entry rests on them. */
  unhashed: number;
  readonly missed: string[];
  readonly unnamed: string[];
}

const NAMED = /^Expected .+, got:? .+/s;

/** Flip random bits of `file` in turn, each in a fresh copy of `dir`; `look` gives what was found. */
async function flip(
  dir: string,
  file: string,
  look: (dir: string) => Promise<string[]>,
  before?: ReturnType<typeof contents>,
): Promise<Tally> {
  const tally: Tally = { found: 0, empty: 0, unhashed: 0, missed: [], unnamed: [] };
  const bytes = await readFile(join(dir, file));
  const work = join(root, "work");
  for (let i = 0; i < BITS; i += 1) {
    const bit = Math.floor(Math.random() * bytes.length * 8);
    await cp(dir, work, { recursive: true });
    const flipped = Buffer.from(bytes);
    flipped[bit >> 3] = (flipped[bit >> 3] ?? 0) ^ (1 << (bit & 7));
    await writeFile(join(work, file), flipped);
    const said = await look(work);
    if (said.length > 0) tally.found += 1;
    else if (before !== undefined && contents(work).all === before.all) tally.empty += 1;
    else if (before !== undefined && contents(work).log === before.log) tally.unhashed += 1;
    else tally.missed.push(`bit ${bit} of ${file}`);
    if (said.length > 0 && !said.some((sentence) => NAMED.test(sentence)))
      tally.unnamed.push(`bit ${bit} of ${file}: ${said[0]}`);
    await rm(work, { recursive: true, force: true });
  }
  process.stdout.write(
    `${file}: ${BITS} bits flipped, ${tally.found} found, ${tally.empty} where nothing is kept, ${tally.unhashed} in pairings and links, ${tally.missed.length} missed\n`,
  );
  return tally;
}

/** What `verify` tells of a folder, or else what opening it does. */
async function verifyOrOpen(dir: string): Promise<string[]> {
  const { faults } = await verifyData(dir);
  if (faults.length > 0) return faults.map(({ message }) => message);
  return await refusal(async () => await (await openShopData(dir)).close());
}

async function refusal(work: () => Promise<unknown>): Promise<string[]> {
  try {
    await work();
    return [];
  } catch (error) {
    // Anything but a plain sentence is as bad as nothing.
    if (!(error instanceof PlainError)) throw error;
    return [error.message];
  }
}

const restored = (dir: string) =>
  refusal(() =>
    restore(dir, join(root, "restored"), {}).finally(() => rm(join(root, "restored"), { recursive: true, force: true })),
  );

async function filesIn(dir: string): Promise<string[]> {
  return (await readdir(dir, { recursive: true, withFileTypes: true }))
    .filter((entry) => entry.isFile())
    .map((entry) => join(entry.parentPath, entry.name).slice(dir.length + 1));
}

const clean = { missed: [], unnamed: [] };

describe("one flipped bit", () => {
  it("in the database of a shop that was closed", async () => {
    const before = contents(closed);
    expect(await verifyOrOpen(closed)).toEqual([]);
    expect(await flip(closed, "thoubook.db", verifyOrOpen, before)).toMatchObject(clean);
  });

  it("in the journal of a shop that was cut off", async () => {
    await mkdir(join(root, "x"), { recursive: true });
    await cp(cut, join(root, "x"), { recursive: true });
    const before = contents(join(root, "x"));
    expect(await flip(cut, "thoubook.db-wal", verifyOrOpen, before)).toMatchObject(clean);
  });

  it("in a clip, a photo, the shop's id and the note of its heads", async () => {
    const blobs = (await filesIn(closed)).filter((file) => /^(blobs\/..\/|shop\.json|heads\.json)/.test(file));
    expect(blobs.length).toBe(4);
    for (const file of blobs) expect(await flip(closed, file, verifyOrOpen)).toMatchObject(clean);
  });

  it("in any file of a backup", async () => {
    expect(await restored(copy)).toEqual([]);
    for (const file of await filesIn(copy)) expect(await flip(copy, file, restored)).toMatchObject(clean);
  });

  it("in an export", async () => {
    const dir = join(root, "exports");
    await mkdir(dir);
    await writeFile(join(dir, "build.json"), exported);
    const look = (at: string) =>
      refusal(async () =>
        readExport(await readFile(join(at, "build.json"), "latin1").then((text) => Buffer.from(text, "latin1").toString("utf8"))),
      );
    expect(await look(dir)).toEqual([]);
    expect(await flip(dir, "build.json", look)).toMatchObject(clean);
  });
});
