// A short run of what `npm run torture` does at length, and of what it stands on: the disk that forgets what was not synced.
import { join } from "node:path";
import Database from "better-sqlite3";
import { v7 } from "uuid";
import { describe, expect, it, vi } from "vitest";
import { dataPaths, openShopData } from "../../server/data-dir.ts";
import { openingEvent, tempDir, textEvent } from "../server/helper.ts";
import { Disk } from "./disk.ts";
import { Ledger } from "./ledger.ts";
import { canTrace, powerCuts } from "./power-cut.ts";
import { BUILT } from "./shop-process.ts";
import { Torture } from "./torture.ts";
import { TraceReader } from "./trace.ts";

// Each start is a process of its own: slow where the machine is busy.
vi.setConfig({ testTimeout: 900_000 });

const hex = (text: string) => [...Buffer.from(text)].map((byte) => `\\x${byte.toString(16).padStart(2, "0")}`).join("");

describe("a shop that is killed while it starts, under load, while it stops and beside a backup", () => {
  it("has all that it acknowledged, once and unchanged", async () => {
    const report = await new Torture({
      program: BUILT,
      dir: join(await tempDir(), "t"),
      kills: 4,
      random: Math.random,
      loadMs: 700,
    }).run();
    const { lost, duplicated, corrupted, refused, verified, backups } = report;
    expect({ lost, duplicated, corrupted, refused, verified, broken: backups.broken }).toEqual({
      lost: 0,
      duplicated: 0,
      corrupted: 0,
      refused: [],
      verified: true,
      broken: 0,
    });
    expect(report.acknowledged).toBeGreaterThan(10);
  });

  it.runIf(canTrace())("has all that it answered after a power cut at any moment", async () => {
    const dir = join(await tempDir(), "cuts");
    const { cuts, answered, unsynced, lost, faults } = await powerCuts({ program: BUILT, dir, cuts: 4, random: Math.random });
    expect({ cuts, unsynced, lost, faults }).toEqual({ cuts: 8, unsynced: 0, lost: 0, faults: [] });
    expect(answered).toBeGreaterThanOrEqual(20);
  });
});

describe("the ledger", () => {
  it("tells what is lost, changed and out of its chain", async () => {
    const dir = await tempDir();
    const data = await openShopData(dir);
    const build = v7();
    const events = [openingEvent(build), ...["a", "b", "c"].map((text) => textEvent(build, text))];
    const { rows } = await data.store.append(events);
    await data.close();
    const ledger = new Ledger();
    rows.forEach((row, i) => {
      ledger.acknowledge(build, row.seq, row.hash, events[i] as { id: string });
    });
    expect(await ledger.standing(dir)).toEqual({ lost: [], duplicated: [], corrupted: [] });
    const [, a, , c] = events.map(({ id }) => id);
    const db = new Database(dataPaths(dir).database);
    db.exec(`DROP TRIGGER event_no_update; DROP TRIGGER event_no_delete; DELETE FROM event WHERE seq = 4;
      UPDATE event SET body = replace(body, '"a"', '"x"') WHERE seq = 2`);
    db.close();
    const { lost, corrupted } = await ledger.standing(dir);
    expect(lost).toEqual([c]);
    expect(new Set(corrupted)).toEqual(new Set([a]));
  });
});

describe("a disk after a power cut", () => {
  const at = (path: string) => `/d/${path}`;
  const text = (disk: Disk) => Object.fromEntries([...disk.afterCut()].map(([name, bytes]) => [name, String(bytes)]));

  it("has bytes that were synced under names that were synced, and no others", () => {
    const disk = new Disk("/d");
    disk.open(3, at("kept"), "O_CREAT");
    disk.open(4, at("unnamed"), "O_CREAT");
    disk.write(3, Buffer.from("one "));
    disk.write(3, Buffer.from("two "));
    disk.sync(3)();
    disk.open(5, "/d", "O_RDONLY");
    disk.sync(5)();
    expect(text(disk)).toEqual({ kept: "one two ", unnamed: "" });
    disk.write(3, Buffer.from("three"));
    disk.write(4, Buffer.from("all of it"));
    disk.rename(at("unnamed"), at("named"));
    expect(text(disk)).toEqual({ kept: "one two ", unnamed: "" });
    disk.sync(4)();
    expect(text(disk)).toEqual({ kept: "one two ", unnamed: "all of it" });
    disk.sync(5)();
    expect(text(disk)).toEqual({ kept: "one two ", named: "all of it" });
  });

  it("loses what was written while a sync was under way, and files in a folder nobody synced", () => {
    const disk = new Disk("/d");
    disk.makeFolder(at("sub"));
    disk.open(3, at("sub/file"), "O_CREAT");
    disk.open(4, at("file"), "O_CREAT");
    disk.open(5, "/d", "");
    disk.sync(5)();
    disk.write(4, Buffer.from("before"));
    const synced = disk.sync(4);
    disk.write(4, Buffer.from(" after"));
    synced();
    expect(text(disk)).toEqual({ file: "before" });
  });

  it("may keep some sectors of what was not synced", () => {
    const disk = new Disk("/d");
    disk.open(3, at("file"), "O_CREAT");
    disk.write(3, Buffer.alloc(512 * 64, "x"));
    const kept = String(disk.afterCut(() => 0.4).get("file"));
    expect(kept).toBe("x".repeat(512 * 64));
    expect(disk.afterCut(() => 0.6).size).toBe(0);
  });

  it("is read from a trace's lines, finished and unfinished", () => {
    const reader = new TraceReader("/d");
    const lines = [
      `7 openat(AT_FDCWD, "${hex("/d/log")}", O_RDWR|O_CREAT|O_CLOEXEC, 0644) = 20`,
      `7 openat(AT_FDCWD, "${hex("/d")}", O_RDONLY|O_CLOEXEC) = 21`,
      "7 fsync(21) = 0",
      `7 pwrite64(20, "${hex("abc")}", 3, 0) = 3`,
      `8 pwrite64(20, "${hex("d")}", 1, 3 <unfinished ...>`,
      "9 fsync(20 <unfinished ...>",
      "8 <... pwrite64 resumed>) = 1",
      "9 <... fsync resumed>) = 0",
    ];
    for (const line of lines) expect(reader.take(line)).toBeUndefined();
    expect(text(reader.disk)).toEqual({ log: "abc" });
    expect(reader.disk.unsynced("log")).toBe(1);
    expect(reader.take(`7 writev(30, [{iov_base="${hex("HTTP/1.1 200 OK")}", iov_len=15}], 1) = 15`)).toBe("HTTP/1.1 200 OK");
  });
});
