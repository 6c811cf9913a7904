// What verify and backup say rests on the hashed entries and on what was kept outside: tables beside them are only compared.
import { readFile, rm, stat, writeFile } from "node:fs/promises";
import { join } from "node:path";
import Database from "better-sqlite3";
import { v7 } from "uuid";
import { beforeEach, describe, expect, it } from "vitest";
import { dataPaths, openShopData, type ShopData } from "../../../server/data-dir.ts";
import { backup, backupInto } from "../../../server/move/backup.ts";
import { readManifest } from "../../../server/move/manifest.ts";
import { restore } from "../../../server/move/restore.ts";
import { verifyData } from "../../../server/move/verify.ts";
import { atEnd, makeEvent, openingEvent, tempDir, textEvent } from "../helper.ts";

const CLIPS = 40;
let dir: string;
let data: ShopData;
let build: string;
const clips: string[] = [];

async function addClip(words: string): Promise<string> {
  const { sha256 } = await data.blobs.put(Buffer.from(`sound of ${words}`), { max: 100, what: "the clip" });
  await data.store.append([makeEvent(build, "utterance.heard", { text: words, by: "voice", clip: sha256 })]);
  return sha256;
}

beforeEach(async () => {
  dir = join(await tempDir(), "shop");
  // A second between any two entries, whatever the machine's speed.
  let second = 0;
  data = await openShopData(dir, { now: () => new Date(Date.UTC(2026, 2, 4, 9, 0, second++)).toISOString() });
  atEnd(() => data.close());
  build = v7();
  clips.length = 0;
  await data.store.append([openingEvent(build)]);
  for (let i = 0; i < CLIPS; i += 1) clips.push(await addClip(`words ${i}`));
});

/** Change the database as somebody with the file in hand could. */
function tamper(database: string, sql: string): void {
  const db = new Database(database);
  for (const table of ["event", "blob_ref"]) for (const verb of ["update", "delete"]) db.exec(`DROP TRIGGER ${table}_no_${verb}`);
  db.pragma("foreign_keys = OFF");
  db.exec(sql);
  db.close();
}
const faultsOf = async (folder = dir) => (await verifyData(folder)).faults;

describe("verify", () => {
  it("finds all forty clips lost although the table of references was emptied with them", async () => {
    tamper(dataPaths(dir).database, "DELETE FROM blob_ref");
    for (const clip of clips) await rm(data.blobs.path(clip));
    const faults = await faultsOf();
    const count = (code: string) => faults.filter((fault) => fault.code === code).length;
    expect([count("missing_reference"), count("missing_blob"), faults.length]).toEqual([CLIPS, CLIPS, 2 * CLIPS]);
    expect(faults.at(-1)?.message).toBe(
      `Expected the file ${clips.at(-1)} of entry 41 of build "Mill engine" (${build}), got none`,
    );
  });

  it.each<[string, string, string, RegExp]>([
    [
      "another device",
      "UPDATE event SET device = 'phone-9' WHERE seq = 5",
      "wrong_column",
      /^Expected phone-1 for the device of entry 5 of build "Mill engine" .* got phone-9/,
    ],
    [
      "another number of the device",
      "UPDATE event SET device_seq = device_seq + 1 WHERE seq = 6",
      "wrong_column",
      /for the device_seq of entry 6 /,
    ],
    [
      "a bundle that is nobody's",
      "UPDATE event SET bundle = '0190a000-0000-7000-8000-00000000000f' WHERE seq = 7",
      "wrong_column",
      /for the bundle of entry 7 /,
    ],
    [
      "the bundle of another moment",
      "UPDATE event SET bundle = (SELECT id FROM event WHERE seq = 3) WHERE seq = 8",
      "wrong_column",
      /for the bundle of entry 8 /,
    ],
    [
      "a reference taken away",
      "DELETE FROM blob_ref WHERE event = (SELECT id FROM event WHERE seq = 9)",
      "missing_reference",
      /of entry 9 of build "Mill engine"/,
    ],
    [
      "a reference that no entry makes",
      "UPDATE blob_ref SET sha256 = 'ff' WHERE event = (SELECT id FROM event WHERE seq = 9)",
      "wrong_reference",
      /that none makes/,
    ],
    [
      "a reference of another kind",
      "UPDATE blob_ref SET kind = 'photo' WHERE event = (SELECT id FROM event WHERE seq = 10)",
      "wrong_reference",
      /of entry 10 .* to be a clip .* got photo/,
    ],
  ])("compares what stands beside the text: %s", async (_what, change, code, sentence) => {
    tamper(dataPaths(dir).database, change);
    const faults = await faultsOf();
    expect(faults.map((fault) => fault.code)).toContain(code);
    expect(faults.find((fault) => fault.code === code)?.message).toMatch(sentence);
  });

  it("tells entries that the shop had acknowledged and the log has lost, though its chain is whole", async () => {
    await data.close();
    expect(await faultsOf()).toEqual([]);
    tamper(dataPaths(dir).database, "DELETE FROM blob_ref; DELETE FROM event WHERE seq > 30");
    const { faults, builds } = await verifyData(dir);
    expect(builds).toMatchObject([{ build, events: 30 }]);
    expect(faults.find((fault) => fault.code === "lost_entries")).toMatchObject({ build, seq: 41 });
    expect(faults.filter((fault) => ["gap", "broken_link", "wrong_hash"].includes(fault.code))).toEqual([]);
    await expect(openShopData(dir)).rejects.toThrow(/^Expected entry 41 of build .* got a log that ends at 30/);
  });

  it("finds a head that was kept outside, whole or its beginning, tells how far the log went on, and misses one that is not there", async () => {
    const head = await data.store.head(build);
    await data.store.append([textEvent(build, "one more"), textEvent(build, "and another")]);
    const hash = head?.hash ?? "";
    expect(await verifyData(dir, { heads: [hash, hash.slice(0, 16)] })).toMatchObject({
      ok: true,
      heads: [
        { head: hash, build, seq: 41, behind: 2 },
        { head: hash.slice(0, 16), build, seq: 41, behind: 2 },
      ],
    });
    const other = `${hash.slice(0, 63)}${hash.endsWith("0") ? "1" : "0"}`;
    const report = await verifyData(dir, { heads: [hash, other] });
    expect(report).toMatchObject({ ok: false, heads: [{ head: hash }], faults: [{ code: "unknown_head" }] });
    expect(report.faults[0]?.message).toBe(`Expected an entry with the hash ${other}, got none in any log`);
  });

  it("says how far it has come", async () => {
    const said = new Map<string, [number, number]>();
    await verifyData(dir, { onProgress: (what, done, of) => said.set(what, [done, of]) });
    expect(Object.fromEntries(said)).toEqual({ entries: [41, 41], "clips and photos": [CLIPS, CLIPS] });
  });
});

describe("a backup", () => {
  it("holds every clip though the table of references is empty, and tells of the table", async () => {
    tamper(dataPaths(dir).database, "DELETE FROM blob_ref");
    const copy = join(await tempDir(), "copy");
    const manifest = await backup(dir, copy);
    expect(manifest.blobs.map((blob) => blob.sha256)).toEqual([...clips].sort());
    expect(new Set(manifest.faults.map((fault) => fault.code))).toEqual(new Set(["missing_reference"]));
  });

  it("goes on past a lost clip, a changed one and a changed entry, names them, and is taken back only when that is asked for", async () => {
    const [lost = "", changed = ""] = clips;
    await rm(data.blobs.path(lost));
    const bytes = await readFile(data.blobs.path(changed));
    bytes[0] = (bytes[0] ?? 0) ^ 1;
    await writeFile(data.blobs.path(changed), bytes);
    tamper(dataPaths(dir).database, "UPDATE event SET body = replace(body, 'words 20', 'words 21') WHERE seq = 22");
    const copy = join(await tempDir(), "copy");
    const manifest = await backup(dir, copy);
    expect(manifest.blobs).toHaveLength(CLIPS - 1);
    expect(manifest.faults.map((fault) => fault.code).sort()).toEqual(["missing_blob", "wrong_blob", "wrong_hash"]);
    expect(manifest.faults.map((fault) => /entry (\d+) of build "Mill engine"/.exec(fault.message)?.[1]).sort()).toEqual([
      "2",
      "22",
      "3",
    ]);
    const again = join(await tempDir(), "again");
    await expect(restore(copy, again)).rejects.toThrow(/^Expected a good backup, got one made with 3 faults/);
    await restore(copy, again, { damaged: true });
    expect(await faultsOf(again)).toEqual(await faultsOf());
    expect(await readFile(join(dataPaths(again).blobs, changed.slice(0, 2), changed))).toEqual(bytes);
  });

  it("of a database that is none any more still holds its bytes and every clip", async () => {
    await data.close();
    const { database } = dataPaths(dir);
    const whole = await readFile(database);
    whole.fill(0x55, 0, 100);
    await writeFile(database, whole);
    const copy = join(await tempDir(), "copy");
    const manifest = await backup(dir, copy);
    expect(manifest.faults.map((fault) => fault.code)).toEqual(["damaged_database"]);
    expect(manifest.blobs).toHaveLength(CLIPS);
    expect(await readFile(dataPaths(copy).database)).toEqual(whole);
    const again = join(await tempDir(), "again");
    await restore(copy, again, { damaged: true });
    expect(await readFile(dataPaths(again).database)).toEqual(whole);
  });

  it("ends beside somebody who never stops writing, and is one moment of the log", async () => {
    let writing = true;
    let written = 0;
    const writer = (async () => {
      while (writing) {
        await data.store.append([textEvent(build, `written beside ${written}`)]);
        written += 1;
        await new Promise((resolve) => setImmediate(resolve));
      }
    })();
    const copy = join(await tempDir(), "copy");
    // Another connection's writes are what makes a copy in many steps start again.
    const other = new Database(dataPaths(dir).database);
    // Four megabytes: ten steps of the size that the library takes.
    other.exec("CREATE TABLE t (x); INSERT INTO t VALUES (randomblob(4000000))");
    const beside = setInterval(() => other.exec("INSERT INTO t VALUES (randomblob(100))"), 2);
    const manifest = await backup(dir, copy).finally(async () => {
      clearInterval(beside);
      other.close();
      writing = false;
      await writer;
    });
    const [head] = manifest.heads;
    expect(manifest.faults).toEqual([]);
    expect(head?.seq).toBeGreaterThanOrEqual(41);
    expect(await data.store.hashAt(build, head?.seq ?? 0)).toBe(head?.hash);
    expect(await verifyData(dir, { heads: manifest.heads.map((kept) => kept.hash) })).toMatchObject({ ok: true });
  });
});

describe("backups in one folder", () => {
  it("copy a clip once, restore byte for byte from each, and copy anew what has rotted there", async () => {
    const place = join(await tempDir(), "backups");
    const at = (minute: number) => new Date(Date.UTC(2026, 2, 4, 9, minute));
    await backupInto(dir, place, {}, at(1));
    const inode = async (sha256: string) => stat(join(place, "blobs", sha256.slice(0, 2), sha256));
    const [first = "", second = ""] = clips;
    const before = await inode(first);
    await writeFile(join(place, "blobs", second.slice(0, 2), second), "rotten bytes here");
    const late = await addClip("a later one");
    const manifest = await backupInto(dir, place, {}, at(2));
    expect(manifest).toMatchObject({ pooled: true, faults: [] });
    expect((await inode(first)).ino).toBe(before.ino);
    for (const [name, events] of [
      ["2026-03-04T090100Z", 41],
      ["2026-03-04T090200Z", 42],
    ] as const) {
      const again = join(await tempDir(), "again");
      await restore(join(place, name), again);
      expect(await verifyData(again)).toMatchObject({ ok: true, builds: [{ events }] });
      for (const clip of events === 42 ? [...clips, late] : clips)
        expect(await readFile(join(dataPaths(again).blobs, clip.slice(0, 2), clip))).toEqual(
          await readFile(data.blobs.path(clip)),
        );
    }
    expect((await readManifest(join(place, "2026-03-04T090100Z"))).heads[0]?.seq).toBe(41);
  });
});
