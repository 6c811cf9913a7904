// Facts of a picture against what it was made from: orientation, size, derivatives, focus, clipping, fingerprint.
import { createHash } from "node:crypto";
import sharp from "sharp";
import { describe, expect, it } from "vitest";
import { findCards } from "../../../extractors/photo/find-cards.ts";
import { readPhoto } from "../../../extractors/photo/index.ts";
import { clippingOf, fingerprintOf, focusOf, type Grey } from "../../../extractors/photo/measures.ts";
import { greyOf } from "../../../extractors/photo/pixels.ts";
import { photoFactsSchema } from "../../../shared/events/events.ts";
import { fingerprintDistance, PHOTO_FLOORS } from "../../../shared/photo/doubts.ts";
import { jpeg, scene } from "./fixtures.ts";

const [WIDE, HIGH] = [64, 48];
type Spot = readonly [number, number];

/** Upright test card: red at its top left, green top right, blue bottom left, white bottom right. */
const colourAt = (x: number, y: number) =>
  y < HIGH / 2 ? (x < WIDE / 2 ? [220, 20, 20] : [20, 200, 20]) : x < WIDE / 2 ? [20, 20, 220] : [235, 235, 235];

/**
 * Where stored row and column lie in the upright picture, for each value of the Orientation tag.
 * Source: Exif 2.32 (CIPA DC-008-2019), 4.6.4 A, tag 274: "the 0th row is at the visual top and the 0th column ...".
 */
const STORED: Readonly<Record<number, (row: number, column: number) => Spot>> = {
  1: (row, column) => [column, row],
  2: (row, column) => [WIDE - 1 - column, row],
  3: (row, column) => [WIDE - 1 - column, HIGH - 1 - row],
  4: (row, column) => [column, HIGH - 1 - row],
  5: (row, column) => [row, column],
  6: (row, column) => [WIDE - 1 - row, column],
  7: (row, column) => [WIDE - 1 - row, HIGH - 1 - column],
  8: (row, column) => [row, HIGH - 1 - column],
};

async function stored(orientation: number): Promise<Buffer> {
  const [width, height] = orientation >= 5 ? [HIGH, WIDE] : [WIDE, HIGH];
  const data = Buffer.alloc(width * height * 3);
  for (let row = 0; row < height; row += 1) {
    for (let column = 0; column < width; column += 1) {
      const [x, y] = STORED[orientation]?.(row, column) ?? [0, 0];
      data.set(colourAt(x, y), (row * width + column) * 3);
    }
  }
  return sharp(data, { raw: { width, height, channels: 3 } })
    .jpeg({ quality: 95, chromaSubsampling: "4:4:4" })
    .withMetadata({ orientation })
    .toBuffer();
}

describe("orientation", () => {
  it.each([1, 2, 3, 4, 5, 6, 7, 8])("value %i comes out upright, with its size after turning", async (orientation) => {
    const { facts, full } = await readPhoto(await stored(orientation));
    expect([facts.orientation, facts.width, facts.height]).toEqual([orientation, WIDE, HIGH]);
    const { data, info } = await sharp(full).removeAlpha().raw().toBuffer({ resolveWithObject: true });
    expect([info.width, info.height]).toEqual([WIDE, HIGH]);
    for (const [x, y] of [
      [8, 8],
      [56, 8],
      [8, 40],
      [56, 40],
    ] as const) {
      const got = [...data.subarray((y * WIDE + x) * 3, (y * WIDE + x) * 3 + 3)];
      for (const [channel, value] of colourAt(x, y).entries()) expect(Math.abs((got[channel] ?? 0) - value)).toBeLessThan(40);
    }
  });
});

describe("facts and derivatives", () => {
  it("keeps to the log's schema and names the original bytes by their SHA-256", async () => {
    const bytes = await jpeg({ DateTimeOriginal: "2026:05:03 10:11:12" });
    const copy = Buffer.from(bytes);
    const { facts } = await readPhoto(bytes);
    expect(photoFactsSchema.safeParse(facts).error).toBeUndefined();
    expect(facts.sha256).toBe(createHash("sha256").update(copy).digest("hex"));
    expect(bytes.equals(copy)).toBe(true);
  });

  it("leaves location and every other tag in the original only", async () => {
    const bytes = await sharp(await scene(3000, 2000))
      .jpeg()
      .withExif({ IFD0: { Make: "x" }, IFD3: { GPSLatitudeRef: "N", GPSLatitude: "51/1 30/1 0/1" } })
      .toBuffer();
    expect((await sharp(bytes).metadata()).exif?.includes("N")).toBe(true);
    const { facts, full, thumb } = await readPhoto(bytes);
    expect(JSON.stringify(facts)).not.toMatch(/gps|latitude/i);
    for (const [picture, longest] of [
      [full, 2048],
      [thumb, 640],
    ] as const) {
      const { format, width, height, exif, icc, xmp, iptc } = await sharp(picture).metadata();
      expect({ format, exif, icc, xmp, iptc }).toEqual({ format: "webp" });
      expect(Math.max(width, height)).toBe(longest);
    }
  });

  it("does not enlarge a small picture", async () => {
    const { full } = await readPhoto(await jpeg());
    expect((await sharp(full).metadata()).width).toBe(640);
  });

  it("reads CMYK, 16-bit and transparent pictures", async () => {
    const cmyk = await sharp(await scene())
      .toColourspace("cmyk")
      .jpeg()
      .toBuffer();
    const deep = await sharp(await scene())
      .toColourspace("rgb16")
      .png()
      .toBuffer();
    const clear = await sharp({ create: { width: 64, height: 64, channels: 4, background: "#00000000" } })
      .png()
      .toBuffer();
    expect((await readPhoto(cmyk)).facts.focus).toBeGreaterThan(1);
    expect((await readPhoto(deep)).facts.focus).toBeGreaterThan(1);
    expect((await readPhoto(clear)).facts.highlights).toBe(1);
  });
});

const grey = (width: number, height: number, level: (x: number, y: number) => number): Grey => {
  const data = new Uint8Array(width * height);
  for (let at = 0; at < data.length; at += 1) data[at] = level(at % width, Math.floor(at / width));
  return { data, width, height };
};

describe("measures of grey pixels", () => {
  it("focus is the variance of the 4-neighbour Laplacian", () => {
    // One bright point of 10 in a 5 by 5 field: inner values -40, four times 10, four times 0; mean 0, variance 2000 / 9.
    expect(focusOf(grey(5, 5, (x, y) => (x === 2 && y === 2 ? 10 : 0)))).toBeCloseTo(2000 / 9, 9);
    // A ramp has no second difference at all.
    expect(focusOf(grey(40, 30, (x, y) => x * 3 + y))).toBe(0);
  });

  it("focus falls as a picture is blurred", async () => {
    const sharpened = await scene(1600, 1200);
    const scores: number[] = [];
    for (const sigma of [0.4, 2, 5, 9])
      scores.push((await readPhoto(await sharp(sharpened).blur(sigma).jpeg().toBuffer())).facts.focus);
    expect(scores).toEqual([...scores].sort((a, b) => b - a));
    expect(scores[0]).toBeGreaterThan(PHOTO_FLOORS.focus);
    expect(scores[3]).toBeLessThan(PHOTO_FLOORS.focus);
  });

  it("counts clipped highlights and shadows", () => {
    const thirds = grey(30, 10, (x) => (x < 10 ? 0 : x < 15 ? 255 : 128));
    expect(clippingOf(thirds)).toEqual({ highlights: 5 / 30, shadows: 10 / 30 });
  });

  it("the grey copy of a phone's picture is the mean green of each two by two", async () => {
    const [width, height] = [2048, 6];
    const data = Buffer.from(Uint8Array.from({ length: width * height * 3 }, (_, at) => (at * 7919 + (at >> 7)) % 256));
    const small = await greyOf({ data, width, height });
    expect([small.width, small.height]).toEqual([1024, 3]);
    for (const [x, y] of [
      [0, 0],
      [1, 0],
      [511, 1],
      [1023, 2],
    ] as const) {
      const green = (column: number, row: number) => data[(row * width + column) * 3 + 1] ?? 0;
      const mean = (green(2 * x, 2 * y) + green(2 * x + 1, 2 * y) + green(2 * x, 2 * y + 1) + green(2 * x + 1, 2 * y + 1)) / 4;
      expect(Math.abs((small.data[y * 1024 + x] ?? 0) - mean)).toBeLessThanOrEqual(0.5);
    }
  });

  it("the fingerprint's bits say which of two neighbours is brighter", () => {
    expect(fingerprintOf(grey(90, 80, (x) => 255 - x))).toBe("ffffffffffffffff");
    expect(fingerprintOf(grey(90, 80, (x) => x))).toBe("0000000000000000");
    // Columns alternate dark and bright: brighter than its right neighbour every second time.
    expect(fingerprintOf(grey(90, 80, (x) => (Math.floor(x / 10) % 2 ? 200 : 50)))).toBe("5555555555555555");
  });

  it("near-twins stay near, other pictures stay far", async () => {
    const one = await scene(1600, 1200, 1);
    const first = (await readPhoto(one)).facts.fingerprint;
    const smaller = await sharp(one).resize(1000).jpeg({ quality: 55 }).toBuffer();
    const brighter = await sharp(one).modulate({ brightness: 1.15 }).webp({ quality: 60 }).toBuffer();
    const other = (await readPhoto(await scene(1600, 1200, 2))).facts.fingerprint;
    expect(fingerprintDistance(first, (await readPhoto(smaller)).facts.fingerprint)).toBeLessThanOrEqual(PHOTO_FLOORS.twinBits);
    expect(fingerprintDistance(first, (await readPhoto(brighter)).facts.fingerprint)).toBeLessThanOrEqual(PHOTO_FLOORS.twinBits);
    expect(fingerprintDistance(first, other)).toBeGreaterThan(PHOTO_FLOORS.twinBits + 5);
  });
});

/** Width and height of pictures that no camera makes but a cut-out or a stitched strip is. */
const ODD_SIZES: readonly (readonly [number, number])[] = [
  [20000, 1],
  [1, 20000],
  [30000, 20],
  [65000, 1],
  [2048, 1],
  [4096, 2],
  [1, 1],
  [3, 2],
];

describe("odd pictures", () => {
  it.each(ODD_SIZES)("of %i by %i pixels are read like any other", async (width, height) => {
    const bytes = await sharp({ create: { width, height, channels: 3, background: "#777777" } })
      .png()
      .toBuffer();
    const { facts, full, thumb } = await readPhoto(bytes);
    expect(photoFactsSchema.safeParse(facts).error).toBeUndefined();
    expect([facts.width, facts.height, facts.card]).toEqual([width, height, undefined]);
    for (const derived of [full, thumb]) expect((await sharp(derived).metadata()).format).toBe("webp");
  });
});

describe("the card reader", () => {
  it("finds no card where it gives up, and throws no bare number", async () => {
    expect(await findCards({ data: new Uint8Array(0), width: 1024, height: 0 })).toEqual([]);
  });
});
