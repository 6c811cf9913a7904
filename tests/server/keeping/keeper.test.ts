// The shop looked after while it is open: re-hashed in the background, backed up on a schedule, both told and answered.
import { readdir, rm, writeFile } from "node:fs/promises";
import { join } from "node:path";
import { pino } from "pino";
import { describe, expect, it } from "vitest";
import { type ChildRun, runCommand } from "../../../server/keeping/child.ts";
import { Keeper, type KeeperOptions } from "../../../server/keeping/keeper.ts";
import { readBackupLog, sayBackupAge, sayBackups } from "../../../server/move/backup-log.ts";
import { restore } from "../../../server/move/restore.ts";
import { verifyData } from "../../../server/move/verify.ts";
import { atEnd, bootShop, clipForm, makeWav, openDemoBuild, tempDir } from "../helper.ts";

async function shopWithClip() {
  const shop = await bootShop();
  const build = await openDemoBuild(shop.app);
  const { clip } = (
    await shop.app.inject({ method: "POST", url: `/api/builds/${build}/clips`, ...clipForm(makeWav()) })
  ).json() as { clip: string };
  return { shop, build, clip };
}

function keep(dir: string, options: Partial<KeeperOptions>) {
  const told: string[] = [];
  // At the tests' own priority: behind a whole suite at work the child would never get its turn.
  const run: KeeperOptions["run"] = (args, signal) => runCommand(args, signal, 0);
  const keeper = new Keeper({
    run,
    dir,
    logger: pino({ level: "silent" }),
    tell: (sentence) => told.push(sentence),
    checkAfterMs: 0,
    ...options,
  });
  atEnd(() => keeper.close());
  return { keeper, told };
}

describe("a keeper", () => {
  it("re-hashes a running shop in a process of its own, and tells a rotten clip by its build and entry", async () => {
    const { shop, clip } = await shopWithClip();
    await writeFile(shop.data.blobs.path(clip), "rotten");
    const { keeper, told } = keep(shop.data.dir, {});
    await keeper.start();
    await expect
      .poll(async () => (await keeper.state()).check?.faults.map((fault) => fault.code), { timeout: 120_000 })
      .toEqual(["wrong_blob"]);
    expect(told).toEqual([
      expect.stringMatching(
        /^The check of all entries and files found 1 faults\. Expected .* of the file of entry \d+ of build "Mill engine"/,
      ),
    ]);
  });

  it("backs a running shop up when no good backup is known, not again before its time, and the copy restores", async () => {
    const { shop } = await shopWithClip();
    const place = join(await tempDir(), "backups");
    const { keeper, told } = keep(shop.data.dir, { backups: { to: place, everyHours: 24 }, checkAfterMs: 1e8 });
    await keeper.start();
    await expect.poll(async () => (await keeper.state()).backups.lastGood?.faults, { timeout: 120_000 }).toBe(0);
    const names = (await readdir(place)).filter((name) => name !== "blobs");
    expect(names).toEqual([expect.stringMatching(/^\d{4}-\d\d-\d\dT\d{6}Z$/)]);
    const again = join(await tempDir(), "again");
    await restore(join(place, names[0] ?? ""), again);
    expect((await verifyData(again)).builds).toEqual((await verifyData(shop.data.dir)).builds);
    const { next, failed } = (await keeper.state()).backups;
    expect([Date.parse(next ?? "") - Date.now() > 23 * 3_600_000, failed, told]).toEqual([true, undefined, []]);
    await keeper.close();
    // A start soon after waits for the rest of the day.
    const second = keep(shop.data.dir, { backups: { to: place, everyHours: 24 }, checkAfterMs: 1e8 });
    await second.keeper.start();
    expect(Date.parse((await second.keeper.state()).backups.next ?? "") - Date.now()).toBeGreaterThan(23 * 3_600_000);
  });

  it("tells a backup that failed or has faults, keeps the age of the last good one, and goes on", async () => {
    const { shop } = await shopWithClip();
    const runs: string[][] = [];
    const answer: ChildRun = {
      code: 1,
      out: "{}",
      err: "backup: 3 of 40 entries\nExpected free space on the disk for this, got none\n",
    };
    const { keeper, told } = keep(shop.data.dir, {
      backups: { to: "/mnt/stick", everyHours: 24 },
      run: async (args) => {
        runs.push([...args]);
        return args[0] === "backup" ? answer : { code: 0, out: '{"faults":[]}', err: "" };
      },
    });
    await keeper.start();
    await expect.poll(() => runs.length).toBe(2);
    expect(runs.find(([name]) => name === "backup")).toEqual(["backup", "/mnt/stick", "--add", "--data", shop.data.dir]);
    expect(told).toEqual(["The backup into /mnt/stick is not a good one. Expected free space on the disk for this, got none"]);
    const state = await keeper.state();
    expect(state.check?.faults).toEqual([]);
    expect(state.backups).toMatchObject({ failed: expect.stringMatching(/^Expected free space/), next: expect.any(String) });
    expect(sayBackups(state.backups)).toMatch(
      /^No good backup .* a day\. The last one since is not a good one: Expected .* The next one is due on 2/,
    );
    const { app } = await bootShop({ deps: { keeping: () => keeper.state() } });
    expect((await app.inject("/api/keeping")).json()).toEqual({
      check: { at: expect.any(String), faults: [] },
      backups: { failed: true, next: state.backups.next },
    });
  });
});

describe("the age of the last good backup", () => {
  const at = Date.UTC(2026, 2, 4, 12);
  const ago = (ms: number) => ({ lastGood: { at: new Date(at - ms).toISOString(), to: "/b/1", faults: 0 } });
  it.each([
    [{}, "No good backup of this shop is known: thoubook backup FOLDER makes one, serve --backups FOLDER one a day."],
    [ago(30_000), "The last good backup is 0 minutes old: /b/1"],
    [ago(61 * 60_000), "The last good backup is 1 hour old: /b/1"],
    [ago(50 * 3_600_000), "The last good backup is 2 days old: /b/1"],
  ])("%j is said plainly", (log, sentence) => {
    expect(sayBackupAge(log, at)).toBe(sentence);
  });

  it("is not known from a note that cannot be read", async () => {
    const { shop } = await shopWithClip();
    expect(await readBackupLog(shop.data.dir)).toEqual({});
    await writeFile(join(shop.data.dir, "backups.json"), "{ torn");
    expect(await readBackupLog(shop.data.dir)).toEqual({});
    await rm(join(shop.data.dir, "backups.json"));
  });
});
