// A disk that is full, a folder that takes no writes, and one that is deleted under a running shop:
// said plainly, never acknowledged, and neither the door nor what can be read is shut by it.
import { mkdir, rename, rm, unlink } from "node:fs/promises";
import { join } from "node:path";
import { sql } from "kysely";
import { v7 } from "uuid";
import { describe, expect, it } from "vitest";
import { dataPaths, openShopData } from "../../../server/data-dir.ts";
import { DoorList } from "../../../server/lan/door-list.ts";
import { backup } from "../../../server/move/backup.ts";
import { verifyData } from "../../../server/move/verify.ts";
import { bootShop, clipForm, makeWav, openDemoBuild, type TestShop, tempDir } from "../helper.ts";
import { mayMount, smallDisk } from "./disk.ts";

const words = (text: string) => ({ id: v7(), text });

async function say({ app }: TestShop, build: string, payload: { id: string; text: string }) {
  const answer = await app.inject({ method: "POST", url: `/api/builds/${build}/utterances`, payload });
  return { status: answer.statusCode, ...(answer.json() as { code?: string; message?: string }) };
}
const read = async ({ app }: TestShop, build: string) => (await app.inject(`/api/builds/${build}/events`)).statusCode;

describe.skipIf(!mayMount)("a full disk", () => {
  it("refuses entries with out_of_space, lets devices in and keeps out who is cut off, over a restart too", async () => {
    const disk = smallDisk(8);
    const dir = join(disk.dir, "shop");
    const shop = await bootShop({ dir });
    const build = await openDemoBuild(shop.app);
    const list = new DoorList(shop.data.store.db, Date.now, () => shop.data.reserve.spend());
    const { device, token } = await list.pair("Phone", "bench", "secure");
    const { token: other } = await list.pair("Lost phone", "bench", "secure");
    await shop.data.reserve.hold();
    disk.fill();
    // The journal may have some room left in it.
    let refused: Awaited<ReturnType<typeof say>> = { status: 200 };
    const acknowledged: string[] = [];
    let last = words("");
    for (let i = 0; i < 200 && refused.status === 200; i += 1) {
      last = words("long words ".repeat(150));
      refused = await say(shop, build, last);
      if (refused.status === 200) acknowledged.push(last.id);
    }
    expect(refused).toMatchObject({ status: 507, code: "out_of_space" });
    const sound = await shop.app.inject({ method: "POST", url: `/api/builds/${build}/clips`, ...clipForm(makeWav()) });
    expect([sound.statusCode, sound.json().code]).toEqual([507, "out_of_space"]);
    expect((await list.deviceOf(token, "secure"))?.id).toBe(device.id);
    expect(await read(shop, build)).toBe(200);
    expect((await shop.app.inject("/api/builds")).statusCode).toBe(200);
    await list.cutOff(device.id);
    expect(await list.deviceOf(token, "secure")).toBeUndefined();
    await shop.app.close();
    await shop.data.close();
    // A start on the full disk holds all that was acknowledged, and who was cut off stays out.
    const again = await bootShop({ dir });
    const after = new DoorList(again.data.store.db);
    expect(await after.deviceOf(token, "secure")).toBeUndefined();
    expect(await after.deviceOf(other, "secure")).toBeDefined();
    for (const id of acknowledged) expect(await again.data.store.find(id)).toBeDefined();
    expect(await again.data.store.find(last.id)).toBeUndefined();
    disk.free();
    expect((await say(again, build, last)).status).toBe(200);
    expect(await verifyData(dir)).toMatchObject({ ok: true });
  });

  it("stops a backup in one sentence and leaves nothing half done", async () => {
    const disk = smallDisk(4);
    const shop = await bootShop();
    const build = await openDemoBuild(shop.app);
    await shop.app.inject({ method: "POST", url: `/api/builds/${build}/clips`, ...clipForm(makeWav(40)) });
    disk.fill();
    await expect(backup(shop.data.dir, join(disk.dir, "copy"))).rejects.toMatchObject({ code: "out_of_space" });
    expect(await rm(join(disk.dir, "copy")).catch((error: NodeJS.ErrnoException) => error.code)).toBe("ENOENT");
  });
});

describe.skipIf(!mayMount)("a folder that takes no writes", () => {
  it("refuses with storage_failed, stores nothing, goes on reading, and a start says it in one sentence", async () => {
    const disk = smallDisk(8);
    const dir = join(disk.dir, "shop");
    const shop = await bootShop({ dir });
    const build = await openDemoBuild(shop.app);
    disk.protect();
    // The database is open already: SQLite is told to do as it does where its file may not be written.
    const queryOnly = (yes: 0 | 1) => sql.raw(`PRAGMA query_only = ${yes}`).execute(shop.data.store.db);
    await queryOnly(1);
    const first = words("bore 1 3.8750");
    expect(await say(shop, build, first)).toEqual({
      status: 503,
      code: "storage_failed",
      message: expect.stringMatching(/^Expected to write into the shop's folder, got one that takes no writes: nothing/),
    });
    const sound = await shop.app.inject({ method: "POST", url: `/api/builds/${build}/clips`, ...clipForm(makeWav()) });
    expect([sound.statusCode, sound.json().code]).toEqual([503, "storage_failed"]);
    expect(await read(shop, build)).toBe(200);
    expect(await shop.data.store.find(first.id)).toBeUndefined();
    disk.unprotect();
    await queryOnly(0);
    expect((await say(shop, build, first)).status).toBe(200);
    await shop.app.close();
    await shop.data.close();
    disk.protect();
    await expect(openShopData(dir)).rejects.toThrow(/^Expected to write into the shop's folder/);
    disk.unprotect();
  });
});

describe("a folder that is gone", () => {
  it.each<[string, (dir: string) => Promise<unknown>]>([
    ["deleted", (dir) => rm(dir, { recursive: true })],
    ["moved away", (dir) => rename(dir, `${dir}-moved`)],
    [
      "replaced by another shop",
      async (dir) => {
        await rename(dir, `${dir}-moved`);
        await mkdir(dir);
        await (await openShopData(dir)).close();
      },
    ],
    ["there without its journal", (dir) => unlink(`${dataPaths(dir).database}-wal`)],
  ])("%s: nothing is acknowledged, and what is answered says so", async (_what, harm) => {
    const dir = join(await tempDir(), "shop");
    const shop = await bootShop({ dir });
    const build = await openDemoBuild(shop.app);
    await harm(dir);
    for (const text of ["bore 1 3.8750", "bore 2 3.8750"])
      expect(await say(shop, build, words(text))).toEqual({
        status: 503,
        code: "storage_failed",
        message: expect.stringMatching(
          /^Expected the shop's folder as it was opened, got it deleted, moved or replaced: nothing/,
        ),
      });
    const raw = "ba7816bf8f01cfea414140de5dae2223b00361a396177a9cb410ff61f20015ad";
    const put = await shop.app.inject({
      method: "PUT",
      url: `/api/blobs/${raw}`,
      headers: { "content-type": "application/octet-stream" },
      payload: "abc",
    });
    // Where only the journal is gone, or another folder is in place, a clip can still be kept: its entry is what is refused.
    expect([201, 503]).toContain(put.statusCode);
    expect(await read(shop, build)).toBe(503);
    expect((await shop.app.inject("/api/health")).statusCode).toBe(200);
  });
});
