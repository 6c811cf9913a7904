// The event store: chain, idempotency, immutability, pragmas, tamper detection.
import { createHash } from "node:crypto";
import { join } from "node:path";
import Database from "better-sqlite3";
import fc from "fast-check";
import { sql } from "kysely";
import { v7 } from "uuid";
import { describe, expect, it } from "vitest";
import { canonicalJson } from "../../../server/store/canonical.ts";
import { ChainCheck, GENESIS } from "../../../server/store/chain.ts";
import { openSqliteStore } from "../../../server/store/sqlite/index.ts";
import { MIGRATIONS } from "../../../server/store/sqlite/migrations.ts";
import { assertPragmas, openDatabase } from "../../../server/store/sqlite/open.ts";
import { atEnd, makeEvent, openingEvent, tempDir, textEvent } from "../helper.ts";

async function openTemp() {
  const path = join(await tempDir(), "book.db");
  const store = openSqliteStore(path, { now: () => "2026-03-04T09:11:13.000Z" });
  atEnd(() => store.close());
  return { path, store };
}

describe("append", () => {
  it("numbers and chains events as the hash is defined: SHA-256 of previous hash, time of receipt and text", async () => {
    const { store } = await openTemp();
    const build = v7();
    const events = [openingEvent(build), textEvent(build, "bore one"), textEvent(build, "bore two")];
    const { rows, added } = await store.append(events);
    expect(added).toBe(3);
    let prev = GENESIS;
    rows.forEach((row, index) => {
      const body = canonicalJson(events[index]);
      expect(row.seq).toBe(index + 1);
      expect(row.body).toBe(body);
      expect(row.prevHash).toBe(prev);
      // Computed here by Node's own SHA-256, not by the store's code.
      prev = createHash("sha256").update(`${prev}\n2026-03-04T09:11:13.000Z\n${body}`).digest("hex");
      expect(row.hash).toBe(prev);
    });
    expect(await store.head(build)).toEqual({ build, seq: 3, hash: prev });
  });

  it("answers the same event again with the same row and adds nothing", async () => {
    const { store } = await openTemp();
    const build = v7();
    const events = [openingEvent(build), textEvent(build, "bore one")];
    const first = await store.append(events);
    // The same content with its keys in another order is the same event.
    const turned = events.map((event) => Object.fromEntries(Object.entries(event).reverse())) as typeof events;
    const again = await store.append([...turned, textEvent(build, "bore two")]);
    expect(again.added).toBe(1);
    expect(again.rows.slice(0, 2)).toEqual(first.rows);
    expect((await store.head(build))?.seq).toBe(3);
  });

  it("refuses another content under a stored id, and stores nothing of that request", async () => {
    const { store } = await openTemp();
    const build = v7();
    const said = textEvent(build, "bore one");
    await store.append([openingEvent(build), said]);
    const forged = { ...said, data: { text: "bore nine", by: "typed" } } as typeof said;
    await expect(store.append([textEvent(build, "before"), forged])).rejects.toMatchObject({
      code: "id_conflict",
      statusCode: 409,
    });
    expect((await store.head(build))?.seq).toBe(2);
  });

  it("takes two different events under one id within a request for a conflict too", async () => {
    const { store } = await openTemp();
    const build = v7();
    const said = textEvent(build, "a");
    const forged = { ...said, by: "other" };
    await expect(store.append([openingEvent(build), said, forged])).rejects.toMatchObject({ code: "id_conflict" });
    expect(await store.head(build)).toBeUndefined();
  });

  it("wants an opening first and only once", async () => {
    const { store } = await openTemp();
    const build = v7();
    await expect(store.append([textEvent(build, "early")])).rejects.toMatchObject({ code: "unknown_build" });
    await store.append([openingEvent(build)]);
    await expect(store.append([openingEvent(build)])).rejects.toMatchObject({ code: "build_exists" });
  });

  it("keeps each build's chain whole under concurrent appends to several builds", async () => {
    const { store } = await openTemp();
    const builds = [v7(), v7(), v7()];
    await store.append(builds.map(openingEvent));
    await Promise.all(Array.from({ length: 60 }, (_, i) => store.append([textEvent(builds[i % 3] ?? "", `words ${i}`)])));
    for (const build of builds) {
      const check = new ChainCheck(build);
      for (const row of await store.rowsAfter(build, 0, 1000)) check.add(row);
      expect(check.faults).toEqual([]);
      expect(check.seq).toBe(21);
    }
  });

  it("refuses with out_of_space when the database is full, keeps what it had, and goes on when there is room", async () => {
    const dir = await tempDir();
    const path = join(dir, "book.db");
    const store = openSqliteStore(path);
    atEnd(() => store.close());
    const build = v7();
    await store.append([openingEvent(build)]);
    const before = await store.head(build);
    const pragma = <T>(text: string) => sql.raw<T>(`PRAGMA ${text}`).execute(store.db);
    const pages = (await pragma<{ page_count: number }>("page_count")).rows[0]?.page_count ?? 0;
    await pragma(`max_page_count = ${pages + 2}`);
    const many = Array.from({ length: 200 }, (_, i) => textEvent(build, `${"long words ".repeat(100)}${i}`));
    await expect(store.append(many)).rejects.toMatchObject({ code: "out_of_space", statusCode: 507 });
    expect(await store.head(build)).toEqual(before);
    await pragma("max_page_count = 1073741823");
    expect((await store.append(many)).added).toBe(200);
  });
});

describe("the database file", () => {
  it("is opened with WAL, synchronous=FULL, foreign keys and a busy timeout, read back from a second handle's defaults", async () => {
    const path = join(await tempDir(), "book.db");
    const db = openDatabase(path);
    atEnd(async () => db.close());
    const read = (name: string) => db.pragma(name, { simple: true });
    expect([read("journal_mode"), read("synchronous"), read("foreign_keys"), read("busy_timeout")]).toEqual(["wal", 2, 1, 5000]);
    db.pragma("synchronous = NORMAL");
    expect(() => assertPragmas(db)).toThrow(/Expected 2 for the database's synchronous, got 1/);
  });

  it.each([
    ["UPDATE event SET body = '{}'"],
    ["DELETE FROM event"],
    ["UPDATE blob_ref SET type = 'text/html'"],
    ["DELETE FROM blob_ref"],
  ])("refuses %s", async (sql) => {
    const { path, store } = await openTemp();
    const build = v7();
    const clip = "a".repeat(64);
    await store.append([openingEvent(build), makeEvent(build, "utterance.heard", { text: "", by: "voice", clip })]);
    const db = new Database(path);
    atEnd(async () => db.close());
    expect(() => db.exec(sql)).toThrow(/append-only/);
  });

  it("records its migrations and refuses a file of a newer version", async () => {
    const { path, store } = await openTemp();
    await store.close();
    const db = new Database(path);
    const applied = db.prepare("SELECT id FROM migration ORDER BY id").pluck().all();
    expect(applied).toEqual(MIGRATIONS.map((migration) => migration.id));
    db.prepare("INSERT INTO migration VALUES (999, 'from the future', '2030-01-01')").run();
    db.close();
    expect(() => openDatabase(path)).toThrow(/got version 999/);
  });
});

describe("the chain check", () => {
  it("finds any edit, deletion, swap or repetition of a row", async () => {
    const { store } = await openTemp();
    const build = v7();
    await store.append([openingEvent(build), ...Array.from({ length: 9 }, (_, i) => textEvent(build, `words ${i}`))]);
    const rows = await store.rowsAfter(build, 0, 100);
    const faultsOf = (list: typeof rows) => {
      const check = new ChainCheck(build);
      for (const row of list) check.add(row);
      return check.faults.length;
    };
    expect(faultsOf(rows)).toBe(0);
    const index = fc.integer({ min: 0, max: 8 });
    fc.assert(
      fc.property(index, fc.constantFrom("edit", "delete", "swap", "repeat", "time"), (i, kind) => {
        const list = [...rows];
        const row = list[i];
        const next = list[i + 1];
        if (row === undefined || next === undefined) return;
        if (kind === "edit") list[i] = { ...row, body: row.body.replace("words", "wards").replace("Mill", "Mall") };
        if (kind === "time") list[i] = { ...row, receivedAt: "2026-03-04T09:11:14.000Z" };
        if (kind === "delete") list.splice(i, 1);
        if (kind === "swap") list.splice(i, 2, next, row);
        if (kind === "repeat") list.splice(i, 0, row);
        expect(faultsOf(list)).toBeGreaterThan(0);
      }),
    );
  });
});

describe("canonical JSON", () => {
  it("gives the text of RFC 8785 section 3.2.3's sorting example", () => {
    const value = {
      "\u20ac": "Euro Sign",
      "\r": "Carriage Return",
      "\ufb33": "Hebrew Letter Dalet With Dagesh",
      "1": "One",
      "\ud83d\ude00": "Emoji: Grinning Face",
      "\u0080": "Control",
      "\u00f6": "Latin Small Letter O With Diaeresis",
    };
    const order = [...canonicalJson(value).matchAll(/:"([^"]*)"/g)].map((match) => match[1]);
    expect(order).toEqual([
      "Carriage Return",
      "One",
      "Control",
      "Latin Small Letter O With Diaeresis",
      "Euro Sign",
      "Emoji: Grinning Face",
      "Hebrew Letter Dalet With Dagesh",
    ]);
  });

  it("gives equal text for equal values and survives a round trip", () => {
    fc.assert(
      fc.property(fc.jsonValue(), (value) => {
        const text = canonicalJson(value);
        expect(canonicalJson(JSON.parse(text))).toBe(text);
        expect(JSON.parse(text)).toEqual(JSON.parse(JSON.stringify(value)));
      }),
    );
  });
});
