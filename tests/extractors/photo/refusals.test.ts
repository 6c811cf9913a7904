// Hostile and broken files: each is refused with its code and a sentence, within bounded time and memory; nothing else suffers.
import { describe, expect, it } from "vitest";
import { openPhotoReader, PhotoError, readPhoto, sniffPhoto } from "../../../extractors/photo/index.ts";
import { jpeg, pngBomb, pngClaim, scene } from "./fixtures.ts";

const SVG = `<?xml version="1.0"?><svg xmlns="http://www.w3.org/2000/svg" width="9" height="9"><image href="file:///etc/passwd"/></svg>`;
const box = (type: string, body: Buffer) => {
  const head = Buffer.alloc(8);
  head.writeUInt32BE(body.length + 8, 0);
  head.write(type, 4, "latin1");
  return Buffer.concat([head, body]);
};
const ftyp = (brand: string) => box("ftyp", Buffer.from(`${brand}\0\0\0\0${brand}mif1`, "latin1"));

/** A HEIC header whose declared picture size (ISO/IEC 23008-12, 6.5.3 "ispe") is far over the limit. */
function heicClaim(): Buffer {
  const size = Buffer.alloc(12);
  size.writeUInt32BE(16320, 4);
  size.writeUInt32BE(12240, 8);
  const meta = box("meta", Buffer.concat([Buffer.alloc(4), box("iprp", box("ipco", box("ispe", size)))]));
  return Buffer.concat([ftyp("heic"), meta]);
}

const half = async () => {
  const whole = await jpeg();
  return whole.subarray(0, Math.floor(whole.length / 2));
};
const halfPng = async () => {
  const whole = await scene();
  return whole.subarray(0, Math.floor(whole.length / 2));
};

const TABLE: [string, () => Buffer | Promise<Buffer>, string, RegExp][] = [
  ["no bytes", () => Buffer.alloc(0), "empty_photo", /empty file/],
  ["text", () => Buffer.from("not a picture at all"), "wrong_type", /another kind/],
  ["SVG that asks for a local file", () => Buffer.from(SVG), "wrong_type", /got SVG/],
  ["GIF", () => Buffer.from("GIF89a\x01\0\x01\0\0\0\0;", "latin1"), "wrong_type", /got GIF/],
  ["TIFF", () => Buffer.from("II*\0\x08\0\0\0", "latin1"), "wrong_type", /got TIFF/],
  ["PDF", () => Buffer.from("%PDF-1.7\n"), "wrong_type", /got PDF/],
  ["AVIF", () => ftyp("avif"), "wrong_type", /got AVIF/],
  ["a film", () => ftyp("isom"), "wrong_type", /a film/],
  ["web page named .jpg", () => Buffer.from("<!doctype html><script>1</script>"), "wrong_type", /web page/],
  ["JPEG's first three bytes only", () => Buffer.from([0xff, 0xd8, 0xff]), "broken_photo", /cut off or damaged/],
  ["half a JPEG", half, "broken_photo", /cut off or damaged/],
  ["half a PNG", halfPng, "broken_photo", /cut off or damaged/],
  ["PNG whose header claims 20000 x 10000", () => pngClaim(20000, 10000), "too_many_pixels", /200 megapixels/],
  ["PNG bomb of 200 megapixels", () => pngBomb(20000, 10000), "too_many_pixels", /at most 64 megapixels, got one of 200/],
  ["PNG whose header lies within the limit", () => pngClaim(7000, 9000), "broken_photo", /cut off or damaged/],
  ["HEIC that declares 200 megapixels", heicClaim, "too_many_pixels", /200 megapixels/],
  ["HEIC without a picture", () => ftyp("heic"), "broken_photo", /HEIC/],
];

describe("files that are refused", () => {
  it.each(TABLE)("%s", async (_, make, code, sentence) => {
    const bytes = await make();
    const before = process.memoryUsage().rss;
    const refusal = await readPhoto(bytes).then(
      () => undefined,
      (error: unknown) => error,
    );
    expect(refusal).toBeInstanceOf(PhotoError);
    expect((refusal as PhotoError).code).toBe(code);
    expect((refusal as PhotoError).message).toMatch(/^Expected .+, got .+\.$/);
    expect((refusal as PhotoError).message).toMatch(sentence);
    // A decoded 200-megapixel picture would take 200 MB in grey alone.
    expect(process.memoryUsage().rss - before).toBeLessThan(150 * 1024 * 1024);
  });

  it("refuses too many bytes before reading them", async () => {
    const reader = openPhotoReader({ bytes: 1000 });
    await expect(reader.read(await jpeg())).rejects.toMatchObject({ code: "too_many_bytes" });
  });

  it("lets a shop raise the pixel limit on purpose", async () => {
    const bytes = pngBomb(3000, 3000);
    await expect(openPhotoReader({ pixels: 8_000_000 }).read(bytes)).rejects.toMatchObject({ code: "too_many_pixels" });
    expect((await openPhotoReader({ pixels: 9_000_000 }).read(bytes)).facts.width).toBe(3000);
  });

  it("serves sound pictures that wait behind hostile ones", async () => {
    const reader = openPhotoReader();
    const bad = TABLE.map(async ([, make]) => reader.read(await make()).catch((error: PhotoError) => error.code));
    const good = await reader.read(await jpeg());
    expect(good.facts.width).toBe(640);
    expect(await Promise.all(bad)).toEqual(TABLE.map(([, , code]) => code));
  });

  it("never trusts a name: types come from the first bytes", async () => {
    expect(sniffPhoto(await jpeg())).toBe("image/jpeg");
    expect(sniffPhoto(await scene())).toBe("image/png");
    expect(sniffPhoto(ftyp("heic"))).toBe("image/heic");
  });
});
