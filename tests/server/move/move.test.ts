// Moving and checking a shop: verify finds every kind of damage, backup and restore give the same shop, export and import too.
import { readdir, readFile, rm, writeFile } from "node:fs/promises";
import { join } from "node:path";
import Database from "better-sqlite3";
import { beforeEach, describe, expect, it } from "vitest";
import { run as runExport } from "../../../server/cli/commands/export.ts";
import { run as runImport } from "../../../server/cli/commands/import.ts";
import { DataInUse, dataPaths, openShopData } from "../../../server/data-dir.ts";
import { backup } from "../../../server/move/backup.ts";
import { exportJson } from "../../../server/move/export-build.ts";
import { importBuild } from "../../../server/move/import-build.ts";
import { writeManifest } from "../../../server/move/manifest.ts";
import { restore } from "../../../server/move/restore.ts";
import { verifyData } from "../../../server/move/verify.ts";
import { canonicalJson } from "../../../server/store/canonical.ts";
import { chainHash } from "../../../server/store/chain.ts";
import { captured } from "../cli/captured.ts";
import { bootShop, clipForm, makeEvent, makeWav, openDemoBuild, type TestShop, tempDir } from "../helper.ts";

let dir: string;
let shop: TestShop;
let build: string;
let clip: string;

beforeEach(async () => {
  dir = join(await tempDir(), "shop");
  shop = await bootShop({ dir });
  build = await openDemoBuild(shop.app);
  for (const text of ["bore 1 3.8750", "bore 2 3.8755"])
    await shop.app.inject({ method: "POST", url: `/api/builds/${build}/utterances`, payload: { text } });
  clip = (await shop.app.inject({ method: "POST", url: `/api/builds/${build}/clips`, ...clipForm(makeWav()) })).json().clip;
});

/** The database with its triggers taken off, as somebody with the file in hand could. */
function tamper(sql: string): void {
  const db = new Database(dataPaths(dir).database);
  for (const name of ["event_no_update", "event_no_delete", "blob_ref_no_delete"]) db.exec(`DROP TRIGGER ${name}`);
  db.pragma("foreign_keys = OFF");
  db.exec(sql);
  db.close();
}
const codes = async () => (await verifyData(dir)).faults.map((fault) => fault.code);

describe("verify", () => {
  it("finds nothing wrong beside a running server, and counts what it checked", async () => {
    const head = await shop.data.store.head(build);
    expect(await verifyData(dir)).toEqual({
      ok: true,
      builds: [{ build, events: head?.seq, head: head?.hash }],
      blobs: { checked: 1, orphans: 0 },
      faults: [],
    });
  });

  it.each([
    ["a changed figure", "UPDATE event SET body = replace(body, '3.8750', '3.8850') WHERE seq = 3", ["wrong_hash"]],
    ["a changed time of receipt", "UPDATE event SET received_at = '2020-01-01T00:00:00.000Z' WHERE seq = 2", ["wrong_hash"]],
    ["a deleted row", "DELETE FROM event WHERE seq = 4", ["gap", "broken_link"]],
    ["a row under another's id", "UPDATE event SET id = '01890000-0000-7000-8000-000000000000' WHERE seq = 2", ["wrong_event"]],
  ])("finds %s", async (_what, sql, wanted) => {
    tamper(sql);
    expect(await codes()).toEqual(wanted);
  });

  it("finds a lost clip and a changed one", async () => {
    const path = shop.data.blobs.path(clip);
    const bytes = await readFile(path);
    bytes[100] = (bytes[100] ?? 0) ^ 1;
    await writeFile(path, bytes);
    expect(await codes()).toEqual(["wrong_blob"]);
    await rm(path);
    expect(await codes()).toEqual(["missing_blob"]);
  });
});

describe("backup and restore", () => {
  it("give the same shop, and the manifest holds the heads", async () => {
    const out = join(await tempDir(), "copy");
    const manifest = await backup(dir, out);
    expect(manifest.heads).toEqual([await shop.data.store.head(build)]);
    expect((await readdir(out)).sort()).toEqual(["blobs", "manifest.json", "manifest.json.sha256", "shop.json", "thoubook.db"]);
    const again = join(await tempDir(), "shop2");
    expect(await restore(out, again)).toEqual({ manifest });
    expect(await verifyData(again)).toEqual(await verifyData(dir));
    const second = await bootShop({ dir: again });
    const read = async ({ app }: TestShop) => (await app.inject(`/api/builds/${build}/events`)).json();
    expect(await read(second)).toEqual(await read(shop));
    expect((await second.app.inject(`/api/blobs/${clip}`)).rawPayload.equals(makeWav())).toBe(true);
  });

  it("refuse a shop that is there, a copy that is there, and a damaged backup", async () => {
    const out = join(await tempDir(), "copy");
    await backup(dir, out);
    await expect(backup(dir, out)).rejects.toThrow(/Expected a new folder/);
    await expect(restore(out, dir)).rejects.toThrow(/empty or new folder/);
    const fresh = join(await tempDir(), "fresh");
    await expect(restore(dir, fresh)).rejects.toThrow(/manifest/);
    for (const [file, wanted] of [
      [dataPaths(out).database, /backup's database/],
      [join(out, "blobs", clip.slice(0, 2), clip), /SHA-256 of the file of entry 6/],
      [join(out, "manifest.json"), /manifest/],
    ] as const) {
      const whole = await readFile(file);
      await writeFile(file, whole.subarray(0, whole.length - 9));
      await expect(restore(out, fresh)).rejects.toThrow(wanted);
      expect(await readdir(join(fresh, ".."))).toEqual([]);
      await writeFile(file, whole);
    }
    await restore(out, fresh);
  });

  it("notice a log that was rewritten with a sound chain, by the manifest's heads", async () => {
    const out = join(await tempDir(), "copy");
    await backup(dir, out);
    const manifest = JSON.parse(await readFile(join(out, "manifest.json"), "utf8"));
    const db = new Database(dataPaths(out).database);
    db.exec(
      "DROP TRIGGER event_no_delete; DROP TRIGGER blob_ref_no_delete; DELETE FROM blob_ref; DELETE FROM event WHERE seq > 2",
    );
    db.close();
    const { createHash } = await import("node:crypto");
    manifest.database.sha256 = createHash("sha256")
      .update(await readFile(dataPaths(out).database))
      .digest("hex");
    // Whoever rewrites the log can also write the manifest's hash anew; the heads are what was witnessed.
    await writeManifest(out, manifest);
    await expect(restore(out, join(await tempDir(), "fresh"))).rejects.toThrow(/manifest's heads/);
  });
});

describe("export and import", () => {
  it("carry a build with its hashes, once", async () => {
    const text = await exportJson(shop.data.store, build);
    const other = await bootShop();
    const first = await importBuild(other.data.store, text);
    expect(first).toMatchObject({ build, added: first.events, blobs: [clip] });
    expect(await other.data.store.head(build)).toEqual(await shop.data.store.head(build));
    expect(await exportJson(other.data.store, build)).toBe(text);
    expect((await importBuild(other.data.store, text)).added).toBe(0);
    await shop.app.inject({ method: "POST", url: `/api/builds/${build}/utterances`, payload: { text: "bore 3 3.8750" } });
    expect((await importBuild(other.data.store, await exportJson(shop.data.store, build))).added).toBe(2);
    const summary = async (s: TestShop) => (await s.app.inject(`/api/builds/${build}`)).json();
    expect(await summary(other)).toEqual(await summary(shop));
  });

  it("survive another program's formatting, and refuse any change of content", async () => {
    const text = await exportJson(shop.data.store, build);
    const other = await bootShop();
    const turned = JSON.stringify(sortDeep(JSON.parse(text)), null, 4);
    expect((await importBuild(other.data.store, turned)).added).toBeGreaterThan(0);
    const third = await bootShop();
    for (const [from, to] of [
      ["3.8755", "3.8765"],
      ['"seq":3', '"seq":4'],
      ["typed", "voice"],
    ] as const)
      await expect(importBuild(third.data.store, text.replace(from, to))).rejects.toThrow(/^Expected a whole chain/);
    await expect(importBuild(third.data.store, text.slice(0, -50))).rejects.toThrow(/Expected JSON/);
    await expect(importBuild(third.data.store, '{"format":"other"}')).rejects.toThrow(/Expected a build's export/);
    expect(await third.data.store.heads()).toEqual([]);
  });

  /** Somebody's own export with a sound chain: one more event, and a time of receipt of their choice. */
  async function crafted(receivedAt: string, about: unknown = {}): Promise<string> {
    const own = JSON.parse(await exportJson(shop.data.store, build));
    const event = makeEvent(build, "question.asked", { question: { code: "which_cylinder", say: "Which one?", about: {} } });
    const last = own.events.at(-1);
    const hash = chainHash(last.hash, receivedAt, canonicalJson(event));
    own.events.push({ seq: last.seq + 1, hash, receivedAt, event });
    return JSON.stringify(own).replace('"about":{}', () => `"about":${typeof about === "string" ? about : "{}"}`);
  }

  it("refuse a time of receipt that is none, and nesting that cannot be written", async () => {
    const other = await bootShop();
    for (const at of ['", "seq": 1, "x": "', "noon", "2026-13-01T00:00:00Z", ""])
      await expect(importBuild(other.data.store, await crafted(at))).rejects.toThrow(/differs at events\.\d+\.receivedAt/);
    const deep = `{"x":${"[".repeat(50_000)}${"]".repeat(50_000)}}`;
    await expect(importBuild(other.data.store, await crafted("2026-03-04T09:11:12.000Z", deep))).rejects.toThrow(
      /nested too deeply/,
    );
    expect(await other.data.store.heads()).toEqual([]);
    expect((await importBuild(other.data.store, await crafted("2026-03-04T09:11:12.000Z"))).added).toBeGreaterThan(1);
  });

  it("that an older version took in with free text for a time breaks no answer", async () => {
    const free = '", "seq": 1, "x": "';
    const { events } = JSON.parse(await crafted(free));
    const { event, seq, hash } = events.at(-1);
    const body = canonicalJson(event);
    const prevHash = events.at(-2).hash;
    const whole = await shop.data.store.rowsAfter(build, 0, 1000);
    await shop.data.store.adopt([
      ...whole,
      { build, seq, id: event.id, bundle: event.id, body, prevHash, hash, receivedAt: free },
    ]);
    for (const path of [`/api/builds/${build}/events`, `/api/builds/${build}/export`]) {
      const answer = (await shop.app.inject(path)).json();
      expect(answer.events.at(-1)).toEqual({ seq, hash, receivedAt: free, event });
    }
  });

  it("refuse a log that parted from the shop's own", async () => {
    const text = await exportJson(shop.data.store, build);
    const other = await bootShop();
    await importBuild(other.data.store, text);
    const say = (s: TestShop, words: string) =>
      s.app.inject({ method: "POST", url: `/api/builds/${build}/utterances`, payload: { text: words } });
    await say(other, "bore 3 3.8750");
    await say(shop, "bore 4 3.8750");
    await expect(importBuild(other.data.store, await exportJson(shop.data.store, build))).rejects.toThrow(
      /goes on from this shop's log/,
    );
    expect((await verifyData(other.data.dir)).faults.map((fault) => fault.code)).toEqual(["missing_blob"]);
  });

  it("take a build in beside a running server, whose screens see it, and list builds by their names", async () => {
    const place = await tempDir();
    const file = join(place, "build.json");
    const blobs = join(place, "blobs");
    const exported = await captured(() => runExport([build], { data: dir, blobs }));
    await writeFile(file, exported.out);
    const other = await bootShop();
    await openDemoBuild(other.app);
    const imported = await captured(() => runImport([file], { data: other.data.dir, blobs }));
    expect([imported.code, imported.err, JSON.parse(imported.out)]).toEqual([
      0,
      "",
      expect.objectContaining({ build, missingBlobs: 0 }),
    ]);
    const head = await shop.data.store.head(build);
    expect((await other.app.inject(`/api/builds/${build}`)).json()).toMatchObject({ id: build, head: { seq: head?.seq } });
    // The running server goes on with the log as it is now.
    const said = await other.app.inject({
      method: "POST",
      url: `/api/builds/${build}/utterances`,
      payload: { text: "bore 3 3.8750" },
    });
    expect([said.statusCode, said.json().events[0].seq]).toEqual([200, (head?.seq ?? 0) + 1]);
    expect((await other.app.inject(`/api/blobs/${clip}`)).rawPayload.equals(makeWav())).toBe(true);
    const listed = JSON.parse((await captured(() => runExport([], { data: other.data.dir }))).out).builds;
    expect(listed).toHaveLength(2);
    expect(listed).toContainEqual({
      build,
      name: "Mill engine",
      openedAt: expect.any(String),
      seq: (head?.seq ?? 0) + 2,
      hash: (await other.data.store.head(build))?.hash,
    });
    expect(await verifyData(other.data.dir)).toMatchObject({ ok: true });
  });

  it("copy clips beside the log when asked", async () => {
    const out = join(await tempDir(), "blobs");
    const { code, out: printed } = await captured(() => runExport([build], { data: dir, blobs: out }));
    expect([code, JSON.parse(printed).build, await readdir(out)]).toEqual([0, build, [clip]]);
  });
});

function sortDeep(value: unknown): unknown {
  if (Array.isArray(value)) return value.map(sortDeep);
  if (value === null || typeof value !== "object") return value;
  return Object.fromEntries(
    Object.entries(value)
      .sort(([a], [b]) => (a < b ? 1 : -1))
      .map(([key, inner]) => [key, sortDeep(inner)]),
  );
}

describe("the data folder", () => {
  it("is held by one process at a time and free again when it is closed", async () => {
    await expect(openShopData(dir)).rejects.toThrow(DataInUse);
    await shop.app.close();
    await shop.data.close();
    const data = await openShopData(dir);
    await data.close();
  });
});
