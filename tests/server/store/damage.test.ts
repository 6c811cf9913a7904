// A changed entry is noticed where it is read and before anything is built on it; the other builds go on.
import { writeFile } from "node:fs/promises";
import { join } from "node:path";
import Database from "better-sqlite3";
import { v7 } from "uuid";
import { beforeEach, describe, expect, it } from "vitest";
import { run as runBackup } from "../../../server/cli/commands/backup.ts";
import { run as runExport } from "../../../server/cli/commands/export.ts";
import { run as runVerify } from "../../../server/cli/commands/verify.ts";
import { dataPaths, openShopData } from "../../../server/data-dir.ts";
import { verifyData } from "../../../server/move/verify.ts";
import { captured } from "../cli/captured.ts";
import { bootShop, clipForm, makeWav, openDemoBuild, type TestShop, tempDir, textEvent } from "../helper.ts";

let dir: string;
let hurt: string;
let sound: string;

/** Two builds, the third entry of one changed while nobody looked. */
beforeEach(async () => {
  dir = join(await tempDir(), "shop");
  const shop = await bootShop({ dir });
  hurt = await openDemoBuild(shop.app);
  sound = await openDemoBuild(shop.app);
  for (const build of [hurt, sound]) for (const text of ["bore 1 3.8750", "bore 2 3.8755"]) await say(shop, build, text);
  await shop.app.close();
  await shop.data.close();
  change("UPDATE event SET body = replace(body, '3.8750', '3.8760') WHERE seq = 3 AND build =", hurt);
});

function change(sql: string, build: string): void {
  const db = new Database(dataPaths(dir).database);
  db.exec("DROP TRIGGER event_no_update");
  db.prepare(`${sql} ?`).run(build);
  db.close();
}
const say = ({ app }: TestShop, build: string, text: string) =>
  app.inject({ method: "POST", url: `/api/builds/${build}/utterances`, payload: { id: v7(), text } });

describe("a changed entry", () => {
  it("keeps its log from being read as if it were true and from being added to, and is named", async () => {
    const shop = await bootShop({ dir });
    const refused = { code: "damaged_log", message: expect.stringMatching(new RegExp(`entry 3 of build .*${hurt}`)) };
    const { app } = shop;
    const asked = await Promise.all([
      app.inject(`/api/builds/${hurt}`),
      app.inject(`/api/builds/${hurt}/events`),
      app.inject(`/api/builds/${hurt}/findings`),
      app.inject(`/api/builds/${hurt}/export`),
      say(shop, hurt, "bore 3 3.8750"),
      app.inject({
        method: "POST",
        url: `/api/builds/${hurt}/events`,
        payload: { events: [textEvent(hurt, "from a phone")] },
      }),
    ]);
    for (const answer of asked) expect([answer.statusCode, answer.json()]).toEqual([500, refused]);
    expect((await shop.data.store.head(hurt))?.seq).toBe(5);
  });

  it("keeps nobody from the other builds, which are listed and written to", async () => {
    const shop = await bootShop({ dir });
    const { builds, unreadable } = (await shop.app.inject("/api/builds")).json();
    expect([builds.map((row: { id: string }) => row.id), unreadable]).toEqual([
      [sound],
      [{ id: hurt, say: expect.stringMatching(/entry 3 of build/) }],
    ]);
    expect((await say(shop, sound, "bore 3 3.8750")).statusCode).toBe(200);
  });

  it("is found before the first append when it is changed under a running shop, and a log that loses its end is too", async () => {
    const data = await openShopData(dir);
    await data.store.append([textEvent(sound, "walked once")]);
    const db = new Database(dataPaths(dir).database);
    db.exec("DROP TRIGGER event_no_delete");
    db.prepare("DELETE FROM event WHERE build = ? AND seq = 6").run(sound);
    db.close();
    await expect(data.store.append([textEvent(sound, "on nothing")])).rejects.toMatchObject({
      code: "damaged_log",
      message: expect.stringMatching(/Expected entry 6 at the end of build .* got another or none/),
    });
    await data.close();
  });

  it("is told by verify and by backup with its build's name, and by export, each in one sentence", async () => {
    const place = await tempDir();
    const named = new RegExp(
      `wrong_hash: Expected [0-9a-f]{64} for the hash of entry 3 of build "Mill engine" \\(${hurt}\\), got`,
    );
    const verified = await captured(() => runVerify([], { data: dir }));
    expect([verified.code, verified.err]).toEqual([1, expect.stringMatching(named)]);
    const copied = await captured(() => runBackup([join(place, "copy")], { data: dir, keys: true }));
    expect([copied.code, copied.err]).toEqual([1, expect.stringMatching(named)]);
    const exported = await captured(() => runExport([hurt], { data: dir }));
    expect([exported.code, exported.out]).toEqual([1, ""]);
    expect(exported.err).toMatch(/^Expected the stored hash for entry 3 of build .*\n$/);
  });
});

describe("a rotten clip", () => {
  it("is not played, counts for none when a phone asks for it, and is whole again when the phone sends it again", async () => {
    const shop = await bootShop();
    const build = await openDemoBuild(shop.app);
    const { clip } = (
      await shop.app.inject({ method: "POST", url: `/api/builds/${build}/clips`, ...clipForm(makeWav()) })
    ).json() as { clip: string };
    const url = `/api/blobs/${clip}` as const;
    const status = async (method: "HEAD" | "GET") => (await shop.app.inject({ method, url })).statusCode;
    expect([await status("HEAD"), await status("GET")]).toEqual([200, 200]);
    const bytes = makeWav();
    bytes[200] = (bytes[200] ?? 0) ^ 4;
    await writeFile(shop.data.blobs.path(clip), bytes);
    expect(await status("HEAD")).toBe(404);
    const played = await shop.app.inject(url);
    expect([played.statusCode, played.json().code]).toEqual([500, "damaged_blob"]);
    const headers = { "content-type": "application/octet-stream" };
    expect((await shop.app.inject({ method: "PUT", url, headers, payload: makeWav() })).statusCode).toBe(201);
    expect([await status("HEAD"), await status("GET")]).toEqual([200, 200]);
    expect(await verifyData(shop.data.dir)).toMatchObject({ ok: true });
  });
});
