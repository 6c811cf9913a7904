// HEIC: decoded in a process of its own, upright and in its colours; damaged, huge and slow ones are refused and leave nothing.
// The fixture was drawn for this test and encoded with heif-enc 1.15.1 (libheif, x265).
import { readFile } from "node:fs/promises";
import sharp from "sharp";
import { describe, expect, it } from "vitest";
import { largestHeicSize } from "../../../extractors/photo/heic-size.ts";
import { openPhotoReader, PhotoError, readPhoto } from "../../../extractors/photo/index.ts";
import { jpeg } from "./fixtures.ts";
import { turnedHeic } from "./heic-turn.ts";

const FILE = new URL("./files/drawn.heic", import.meta.url);
const heic = () => readFile(FILE);

describe("HEIC", () => {
  it("is read like any other picture: time, size, pixels", async () => {
    const { facts, full } = await readPhoto(await heic());
    expect(facts).toMatchObject({ type: "image/heic", width: 320, height: 240, orientation: 1 });
    expect(facts.taken).toEqual({ at: "2026-05-03T10:11:12+02:00", source: "exif_original", zoneKnown: true });
    const { data } = await sharp(full).removeAlpha().raw().toBuffer({ resolveWithObject: true });
    const pixel = (x: number, y: number) => [...data.subarray((y * 320 + x) * 3, (y * 320 + x) * 3 + 3)];
    // The drawing is red on its left half, blue on its right.
    const [left, right] = [pixel(20, 20), pixel(300, 220)];
    expect(left[0]).toBeGreaterThan(150);
    expect(left[2]).toBeLessThan(90);
    expect(right[2]).toBeGreaterThan(150);
    expect(right[0]).toBeLessThan(90);
  });

  it("comes out upright when it says that it lies on its side", async () => {
    const { facts, full } = await readPhoto(turnedHeic(await heic(), 1));
    expect(facts).toMatchObject({ width: 240, height: 320, orientation: 1 });
    const { data, info } = await sharp(full).removeAlpha().raw().toBuffer({ resolveWithObject: true });
    expect([info.width, info.height]).toEqual([240, 320]);
    const pixel = (x: number, y: number) => [...data.subarray((y * 240 + x) * 3, (y * 240 + x) * 3 + 3)];
    // A quarter turn anticlockwise: what was red on the left is at the bottom, what was blue on the right is at the top.
    expect((pixel(20, 20)[2] ?? 0) - (pixel(20, 20)[0] ?? 0)).toBeGreaterThan(80);
    expect((pixel(20, 300)[0] ?? 0) - (pixel(20, 300)[2] ?? 0)).toBeGreaterThan(80);
  });

  it("tells its size before it is decoded", async () => {
    expect(largestHeicSize(await heic())).toEqual({ width: 320, height: 240 });
    expect(largestHeicSize(Buffer.from("no boxes here at all"))).toBeUndefined();
  });

  it("is refused over the pixel limit, by its header and by the decoder's own word", async () => {
    const reader = openPhotoReader({ pixels: 320 * 240 - 1 });
    await expect(reader.read(await heic())).rejects.toMatchObject({ code: "too_many_pixels" });
    const bytes = await heic();
    // The declared size is falsified to one pixel: the decoder's process still counts what it finds.
    const at = bytes.indexOf("ispe");
    bytes.writeUInt32BE(1, at + 8);
    bytes.writeUInt32BE(1, at + 12);
    const refusal = await reader.read(bytes).catch((error: unknown) => error);
    expect(refusal).toBeInstanceOf(PhotoError);
  });

  it("is refused when the decoder takes too long", async () => {
    const reader = openPhotoReader({ seconds: 0.02 });
    await expect(reader.read(await heic())).rejects.toMatchObject({ code: "too_slow" });
  });

  it("is refused cut off or damaged anywhere, and the next picture is read", async () => {
    const whole = await heic();
    for (const share of [0.2, 0.5, 0.8]) {
      await expect(readPhoto(whole.subarray(0, Math.floor(whole.length * share)))).rejects.toBeInstanceOf(PhotoError);
    }
    const scrambled = Buffer.from(whole);
    for (let at = 40; at < 400; at += 7) scrambled[at] = (scrambled[at] ?? 0) ^ 0xff;
    await expect(readPhoto(scrambled)).rejects.toBeInstanceOf(PhotoError);
    expect((await readPhoto(await jpeg())).facts.width).toBe(640);
  });
});
