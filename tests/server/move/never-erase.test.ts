// Nothing that is anybody's is ever erased: not by a start on a missing, emptied or older database, not by backup or restore.
import { cp, mkdir, readdir, readFile, rm, utimes, writeFile } from "node:fs/promises";
import { join } from "node:path";
import Database from "better-sqlite3";
import { beforeEach, describe, expect, it } from "vitest";
import { dataPaths, openShopData } from "../../../server/data-dir.ts";
import { backup } from "../../../server/move/backup.ts";
import { collect } from "../../../server/move/collect.ts";
import { restore } from "../../../server/move/restore.ts";
import { verifyData } from "../../../server/move/verify.ts";
import { makeEvent, openingEvent, putAsideOrphans, tempDir } from "../helper.ts";

const BUILD = "0190a000-0000-7000-8000-000000000001";
const CLIPS = 40;
let dir: string;
let older: string;

/** A shop with forty clips that are days old, and a copy of its database from when it had ten of them. */
beforeEach(async () => {
  dir = join(await tempDir(), "shop");
  const data = await openShopData(dir);
  older = join(await tempDir(), "older.db");
  await data.store.append([openingEvent(BUILD)]);
  for (let i = 0; i < CLIPS; i += 1) {
    const { sha256 } = await data.blobs.put(Buffer.from(`sound ${i}`), { max: 100, what: "the clip" });
    await utimes(data.blobs.path(sha256), new Date(0), new Date(0));
    await data.store.append([makeEvent(BUILD, "utterance.heard", { text: `words ${i}`, by: "voice", clip: sha256 })]);
    if (i === 9) {
      const db = new Database(dataPaths(dir).database, { readonly: true });
      await db.backup(older);
      db.close();
    }
  }
  await data.close();
});

/** Every file under `root` with its bytes, but for the lock, SQLite's own journal and a note of the heads that is being written. */
async function filesOf(root: string): Promise<Record<string, string>> {
  const files: Record<string, string> = {};
  for (const entry of await readdir(root, { recursive: true, withFileTypes: true })) {
    if (!entry.isFile() || /lock\.db|-shm$|-wal$|^heads\.json\..*\.part$/.test(entry.name)) continue;
    const path = join(entry.parentPath, entry.name);
    files[path.slice(root.length + 1)] = (await readFile(path)).toString("base64");
  }
  return files;
}
const blobsOf = async (root: string) => Object.keys(await filesOf(root)).filter((path) => path.startsWith("blobs"));

describe("a start", () => {
  it.each<[string, (database: string) => Promise<void>, RegExp]>([
    [
      "without the database",
      (database) => rm(database),
      /^Expected the shop's database in .*got none beside 40 clips and photos/,
    ],
    ["with an empty one", (database) => writeFile(database, ""), /^Expected the shop's database in .*got none beside 40/],
    [
      "with a new one that holds nothing",
      async (database) => {
        const fresh = join(await tempDir(), "fresh");
        await (await openShopData(fresh)).close();
        await cp(dataPaths(fresh).database, database);
      },
      /^Expected entry 41 of build .* got a log that ends at 0/,
    ],
    ["with an older one", (database) => cp(older, database), /^Expected entry 41 of build .* got a log that ends at 11/],
    [
      "with bits flipped in the pages of its tables",
      async (database) => {
        const bytes = await readFile(database);
        for (let at = 4096; at < bytes.length; at += 4096) bytes[at] = (bytes[at] ?? 0) ^ 0x40;
        await writeFile(database, bytes);
      },
      /^Expected a sound database of a shop in /,
    ],
    [
      "with another program's",
      async (database) => {
        await rm(database);
        const db = new Database(database);
        db.exec("CREATE TABLE song (title TEXT)");
        db.close();
      },
      /got another program's database/,
    ],
    [
      "with one that was cut off",
      async (database) => writeFile(database, (await readFile(database)).subarray(0, 9000)),
      /^Expected a sound/,
    ],
    [
      "with text in its place",
      (database) => writeFile(database, "no database at all\n".repeat(300)),
      /got a file that is no database/,
    ],
  ])("%s is refused in one sentence and changes no file", async (_what, harm, sentence) => {
    const { database } = dataPaths(dir);
    await harm(database);
    const before = await filesOf(dir);
    await expect(openShopData(dir)).rejects.toThrow(sentence);
    expect(await filesOf(dir)).toEqual(before);
  });

  it("goes on from an older database when the owner says so, with every clip still there, and takes none for nobody's", async () => {
    await cp(older, dataPaths(dir).database);
    const data = await openShopData(dir, { asIs: true });
    expect((await data.store.head(BUILD))?.seq).toBe(11);
    expect(await blobsOf(dir)).toHaveLength(CLIPS);
    await expect(collect(data, { graceMs: 0 })).rejects.toThrow(/^Expected fewer clips .* than the 10 that are named, got 30/);
    await data.close();
    // From now on this is how far the log has come.
    await (await openShopData(dir)).close();
  });
});

describe("collection", () => {
  it("tells orphans, moves them only when their number is said, and a start brings back what an entry names after all", async () => {
    const data = await openShopData(dir);
    const { sha256 } = await data.blobs.put(Buffer.from("nobody's"), { max: 100, what: "the clip" });
    expect(await collect(data)).toEqual({ orphans: 0, bytes: 0, putAside: 0 });
    expect(await collect(data, { graceMs: 0 })).toEqual({ orphans: 1, bytes: 8, putAside: 0 });
    expect(await data.blobs.has(sha256)).toBe(true);
    await expect(collect(data, { graceMs: 0, putAside: 2 })).rejects.toThrow(/^Expected 1, the number of orphans there are/);
    expect(await putAsideOrphans(data)).toBe(1);
    expect(await data.blobs.has(sha256)).toBe(false);
    expect(Object.keys(await filesOf(dir)).filter((path) => path.startsWith("quarantine"))).toHaveLength(1);
    await data.store.append([makeEvent(BUILD, "utterance.heard", { text: "late", by: "voice", clip: sha256 })]);
    await data.close();
    const again = await openShopData(dir);
    expect(await readFile(again.blobs.path(sha256), "utf8")).toBe("nobody's");
    await again.close();
    expect(await verifyData(dir)).toMatchObject({ ok: true, blobs: { checked: CLIPS + 1, orphans: 0 } });
  });

  it("takes the hashed entries' word for what is wanted, not the table's beside them", async () => {
    const db = new Database(dataPaths(dir).database);
    db.exec("DROP TRIGGER blob_ref_no_delete; DELETE FROM blob_ref");
    db.close();
    const data = await openShopData(dir);
    await expect(collect(data)).rejects.toThrow(/^Expected sound logs to tell orphans by, got a fault/);
    await data.close();
    expect(await blobsOf(dir)).toHaveLength(CLIPS);
  });
});

describe("restore and backup", () => {
  it("leave a folder that holds anything as it is, and every partial folder of somebody else's", async () => {
    const place = await tempDir();
    const copy = join(place, "copy");
    const target = join(place, "target");
    for (const name of [`${copy}.partial`, `${target}.partial`, target, join(target, "lan")]) await mkdir(name);
    for (const name of [
      `${copy}.partial/mine`,
      `${target}.partial/mine`,
      `${target}/notes.txt`,
      `${target}/lan/authority.key.pem`,
    ])
      await writeFile(join(place, name.slice(place.length + 1)), "mine");
    const before = await filesOf(place);
    await backup(dir, copy);
    await expect(restore(copy, target)).rejects.toThrow(
      /^Expected an empty or new folder to restore into, got .* with 2 things in it/,
    );
    expect(await filesOf(place)).toMatchObject(before);
    expect((await readdir(place)).sort()).toEqual(["copy", "copy.partial", "target", "target.partial"]);
  });

  it("swap a shop for its backup when asked, keep the old one whole, and not under a running shop", async () => {
    const place = await tempDir();
    const copy = join(place, "copy");
    await backup(dir, copy);
    const running = await openShopData(dir);
    await running.store.append([makeEvent(BUILD, "utterance.heard", { text: "newer than the copy", by: "typed" })]);
    await expect(restore(copy, dir, { swap: true })).rejects.toThrow(/a running thoubook holds/);
    await running.close();
    const before = await filesOf(dir);
    const { kept, manifest } = await restore(copy, dir, { swap: true });
    expect(await filesOf(kept ?? "")).toEqual(before);
    expect(await verifyData(dir)).toMatchObject({ ok: true, builds: [{ events: CLIPS + 1 }] });
    expect(manifest.heads.map((head) => head.seq)).toEqual([CLIPS + 1]);
    expect((await readdir(join(dir, ".."))).filter((name) => !name.startsWith("shop.before-"))).toEqual(["shop"]);
    await rm(dir, { recursive: true });
    await expect(openShopData(dir)).rejects.toThrow(
      /^Expected a shop in .* got none beside shop\.before-.* which a restore had put aside/,
    );
  });

  it("carry the shop's id and the keys of its door, byte for byte, or leave the keys out and say so", async () => {
    const { lan, identity } = dataPaths(dir);
    await mkdir(lan, { mode: 0o700 });
    await writeFile(join(lan, "authority.key.pem"), "the key", { mode: 0o600 });
    await writeFile(join(lan, "authority.pem"), "the certificate");
    const place = await tempDir();
    expect((await backup(dir, join(place, "with"))).keys).toBe("kept");
    expect((await backup(dir, join(place, "without"), { withoutKeys: true })).keys).toBe("left_out");
    await restore(join(place, "with"), join(place, "again"));
    const again = dataPaths(join(place, "again"));
    for (const name of ["authority.key.pem", "authority.pem"])
      expect(await readFile(join(again.lan, name))).toEqual(await readFile(join(lan, name)));
    expect(await readFile(again.identity)).toEqual(await readFile(identity));
    await restore(join(place, "without"), join(place, "bare"));
    expect(await readdir(join(place, "bare"))).not.toContain("lan");
    expect(Object.entries(await filesOf(join(place, "again"))).filter(([path]) => path.startsWith("blobs"))).toEqual(
      Object.entries(await filesOf(dir)).filter(([path]) => path.startsWith("blobs")),
    );
  });
});
