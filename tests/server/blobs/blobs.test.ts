// Blobs: whole or absent, named by their bytes, swept of what a crash left.
import { createHash } from "node:crypto";
import { readdir, readFile, utimes, writeFile } from "node:fs/promises";
import { join } from "node:path";
import { Readable } from "node:stream";
import { describe, expect, it } from "vitest";
import { Blobs, hashFile } from "../../../server/blobs/blobs.ts";
import { tempDir } from "../helper.ts";

async function openBlobs() {
  const blobs = new Blobs(join(await tempDir(), "blobs"));
  await blobs.prepare();
  return blobs;
}
const limits = { max: 1000, what: "the clip" };

describe("blobs", () => {
  it("keeps bytes under their SHA-256 (FIPS 180-2 appendix B.1: the hash of abc)", async () => {
    const blobs = await openBlobs();
    const { sha256, bytes } = await blobs.put(Buffer.from("abc"), limits);
    expect(sha256).toBe("ba7816bf8f01cfea414140de5dae2223b00361a396177a9cb410ff61f20015ad");
    expect(bytes).toBe(3);
    expect(blobs.path(sha256)).toBe(join(blobs.dir, "ba", sha256));
    expect(await readFile(blobs.path(sha256), "utf8")).toBe("abc");
    expect(await hashFile(blobs.path(sha256))).toBe(sha256);
  });

  it("refuses one byte too many and takes the largest size, leaving no file behind", async () => {
    const blobs = await openBlobs();
    await expect(blobs.put(Buffer.alloc(1001), limits)).rejects.toMatchObject({ code: "too_large" });
    expect(await readdir(join(blobs.dir, "incoming"))).toEqual([]);
    expect((await blobs.put(Buffer.alloc(1000), limits)).bytes).toBe(1000);
  });

  it("refuses bytes that are not the promised ones", async () => {
    const blobs = await openBlobs();
    await expect(blobs.put(Buffer.from("abd"), { ...limits, sha256: "0".repeat(64) })).rejects.toMatchObject({
      code: "hash_mismatch",
    });
    expect(await readdir(blobs.dir)).toEqual(["incoming"]);
  });

  it("leaves nothing of a stream that breaks off", async () => {
    const blobs = await openBlobs();
    const broken = Readable.from(
      (function* () {
        yield Buffer.from("half");
        throw new Error("line dropped");
      })(),
    );
    await expect(blobs.receive(broken, limits)).rejects.toThrow("line dropped");
    expect(await readdir(join(blobs.dir, "incoming"))).toEqual([]);
  });

  it("takes the same bytes twice at once as one blob", async () => {
    const blobs = await openBlobs();
    const answers = await Promise.all(Array.from({ length: 8 }, () => blobs.put(Buffer.from("same"), limits)));
    expect(new Set(answers.map((answer) => answer.sha256)).size).toBe(1);
    const names = [];
    for await (const name of blobs.names()) names.push(name);
    expect(names).toEqual([createHash("sha256").update("same").digest("hex")]);
  });

  it.each(["../../etc/passwd", "..", "A".repeat(64), `${"a".repeat(63)}/`, "a".repeat(65), ""])(
    "makes no path of %j",
    async (name) => {
      const blobs = await openBlobs();
      expect(() => blobs.path(name)).toThrow(RangeError);
    },
  );

  it("clears half-written files and nothing else, however old and unnamed it is", async () => {
    const blobs = await openBlobs();
    const old = await blobs.put(Buffer.from("old orphan"), limits);
    await utimes(blobs.path(old.sha256), new Date(0), new Date(0));
    await writeFile(join(blobs.dir, "incoming", "torn"), "half");
    expect(await blobs.clearIncoming()).toBe(1);
    expect(await blobs.has(old.sha256)).toBe(true);
  });
});
