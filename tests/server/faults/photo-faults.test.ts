// Photos through faults: the process killed at each step of an upload, the disk full in the middle of one, the decoder fed poison.
// Afterwards nothing acknowledged is lost, no orphan is served, and the same picture sent again goes in once.
import { spawn } from "node:child_process";
import { createHash } from "node:crypto";
import { readFile } from "node:fs/promises";
import { fileURLToPath } from "node:url";
import { v7 } from "uuid";
import { afterEach, describe, expect, it, vi } from "vitest";
import { verifyData } from "../../../server/move/verify.ts";
import type { TestShop } from "../helper.ts";
import { bootShop, multipart, openDemoBuild, putAsideOrphans, tempDir } from "../helper.ts";

/** Set to the number of bytes after which the disk is full; undefined while there is room. */
const disk = vi.hoisted(() => ({ room: undefined as number | undefined }));

// The file system says ENOSPC where the room ends, as a full disk does: part of the bytes are written first.
vi.mock("node:fs/promises", async (original) => {
  const real = await original<typeof import("node:fs/promises")>();
  const full = () => Object.assign(new Error("ENOSPC: no space left on device, write"), { code: "ENOSPC", errno: -28 });
  return {
    ...real,
    open: async (...args: Parameters<typeof real.open>) => {
      const handle = await real.open(...args);
      if (args[1] !== "wx") return handle;
      const write = handle.writeFile.bind(handle);
      handle.writeFile = async (data, ...rest) => {
        if (disk.room === undefined) return write(data, ...rest);
        const bytes = data as Buffer;
        await write(bytes.subarray(0, disk.room), ...rest);
        disk.room -= Math.min(disk.room, bytes.length);
        if (disk.room === 0) throw full();
      };
      return handle;
    },
    writeFile: async (...args: Parameters<typeof real.writeFile>) => {
      if (disk.room !== undefined && disk.room < (args[1] as Buffer).length) throw full();
      return real.writeFile(...args);
    },
  };
});
afterEach(() => {
  disk.room = undefined;
});

const PICTURE = fileURLToPath(new URL("../../../demo-data/photos/cap-marks-1.jpg", import.meta.url));
const DYING = fileURLToPath(new URL("./dying-shop.ts", import.meta.url));
const hash = createHash("sha256")
  .update(await readFile(PICTURE))
  .digest("hex");

async function upload({ app }: TestShop, build: string, id = v7()) {
  const fields = [
    { name: "id", value: id },
    { name: "device", value: "phone-1" },
  ];
  const form = multipart([...fields, { name: "photo", filename: "p.jpg", type: "image/jpeg", value: await readFile(PICTURE) }]);
  return app.inject({ method: "POST", url: `/api/builds/${build}/photos`, ...form });
}

async function photosOf({ app }: TestShop, build: string): Promise<{ id: string }[]> {
  const answer = await app.inject(`/api/builds/${build}/events`);
  const { events } = answer.json() as { events: { event: { id: string; type: string } }[] };
  return events.map(({ event }) => event).filter(({ type }) => type === "photo.taken");
}

const served = async ({ app }: TestShop) => (await app.inject(`/api/photos/${hash}/thumb`)).statusCode;

/** Runs the shop that is killed; gives what it printed and the signal it ended by. */
async function dieAt(dir: string, moment: string, id: string): Promise<{ lines: string[]; signal: string | null }> {
  const child = spawn(process.execPath, ["--import", "tsx", DYING, dir, PICTURE, moment, id], {
    stdio: ["ignore", "pipe", "inherit"],
  });
  let out = "";
  child.stdout.on("data", (chunk) => {
    out += String(chunk);
  });
  const signal = await new Promise<string | null>((resolve) => child.once("close", (_code, by) => resolve(by)));
  return { lines: out.trim().split("\n"), signal };
}

describe("a shop killed during an upload", () => {
  const MOMENTS: [string, number, number][] = [
    ["before_blob", 404, 0],
    ["between_blob_and_event", 404, 0],
    ["after_event", 200, 1],
    ["never", 200, 1],
  ];
  it.each(MOMENTS)(
    "%s: serves it with %i on return, holds %i photos, and takes it again once",
    async (moment, status, held) => {
      const dir = await tempDir();
      const id = v7();
      const { lines, signal } = await dieAt(dir, moment, id);
      const build = lines[0] ?? "";
      expect(signal).toBe(moment === "never" ? null : "SIGKILL");
      expect(lines.includes("acknowledged")).toBe(moment === "never");
      // The next start finds the folder free; a whole picture that no entry names yet is kept, and put aside when that is asked for.
      const shop = await bootShop({ dir });
      expect(await shop.deps.blobs.has(hash)).toBe(moment !== "before_blob");
      expect(await putAsideOrphans(shop.data)).toBe(moment === "between_blob_and_event" ? 1 : 0);
      expect(await served(shop)).toBe(status);
      expect(await photosOf(shop, build)).toHaveLength(held);
      expect(await shop.deps.blobs.has(hash)).toBe(held === 1);
      // The phone heard no answer and sends it again under the same id.
      const again = await upload(shop, build, id);
      expect(again.statusCode).toBe(200);
      expect((await photosOf(shop, build)).map((photo) => photo.id)).toEqual([id]);
      expect(await served(shop)).toBe(200);
      await shop.app.close();
      await shop.data.close();
      expect(await verifyData(dir)).toMatchObject({ ok: true });
    },
    60_000,
  );
});

describe("a full disk during an upload", () => {
  it.each([0, 1000, 100_000])(
    "after %i bytes: refused with out_of_space, nothing kept, and it goes in when there is room",
    async (room) => {
      const dir = await tempDir();
      const shop = await bootShop({ dir });
      const build = await openDemoBuild(shop.app);
      disk.room = room;
      const id = v7();
      const refused = await upload(shop, build, id);
      expect([refused.statusCode, refused.json().code]).toEqual([507, "out_of_space"]);
      expect(await photosOf(shop, build)).toEqual([]);
      expect(await shop.deps.blobs.has(hash)).toBe(false);
      expect(await served(shop)).toBe(404);
      disk.room = undefined;
      expect((await upload(shop, build, id)).statusCode).toBe(200);
      expect((await photosOf(shop, build)).map((photo) => photo.id)).toEqual([id]);
    },
  );

  it("between the original and its thumbnail: refused, and it goes in when there is room", async () => {
    const shop = await bootShop();
    const build = await openDemoBuild(shop.app);
    const size = (await readFile(PICTURE)).length;
    disk.room = size + 10;
    const id = v7();
    const refused = await upload(shop, build, id);
    expect([refused.statusCode, refused.json().code]).toEqual([507, "out_of_space"]);
    expect(await photosOf(shop, build)).toEqual([]);
    expect(await served(shop)).toBe(404);
    disk.room = undefined;
    expect((await upload(shop, build, id)).statusCode).toBe(200);
    expect(await served(shop)).toBe(200);
  });
});
