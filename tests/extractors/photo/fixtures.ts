// Pictures made for the tests: drawn pixels with Exif blocks, and files that only look like pictures. All from own bytes.
import { deflateSync } from "node:zlib";
import sharp from "sharp";

/** A picture with detail in it, so that focus and fingerprint have something to see. */
export async function scene(width = 640, height = 480, seed = 1): Promise<Buffer> {
  const boxes = Array.from({ length: 40 }, (_, n) => {
    const value = (n * 7919 * seed) % 9973;
    return `<rect x="${value % width}" y="${(value * 31) % height}" width="${20 + (value % 90)}" height="${20 + ((value * 7) % 70)}" fill="rgb(${value % 255},${(value * 3) % 255},${(value * 11) % 255})"/>`;
  });
  const svg = `<svg xmlns="http://www.w3.org/2000/svg" width="${width}" height="${height}"><rect width="100%" height="100%" fill="#888"/>${boxes.join("")}</svg>`;
  return sharp(Buffer.from(svg)).png().toBuffer();
}

export interface ExifFields {
  readonly DateTime?: string;
  readonly DateTimeOriginal?: string;
  readonly DateTimeDigitized?: string;
  readonly OffsetTime?: string;
  readonly OffsetTimeOriginal?: string;
  readonly OffsetTimeDigitized?: string;
  readonly SubSecTimeOriginal?: string;
}

export async function jpeg(exif: ExifFields = {}, orientation?: number): Promise<Buffer> {
  const { DateTime, ...rest } = exif;
  let picture = sharp(await scene()).jpeg({ quality: 90 });
  if (orientation !== undefined) picture = picture.withMetadata({ orientation });
  const blocks = { IFD0: DateTime ? { DateTime } : {}, IFD2: { ...rest } as Record<string, string> };
  return Object.keys(exif).length > 0 ? picture.withExifMerge(blocks).toBuffer() : picture.toBuffer();
}

function pngChunk(type: string, data: Buffer): Buffer {
  const head = Buffer.alloc(8);
  head.writeUInt32BE(data.length, 0);
  head.write(type, 4, "latin1");
  const sum = Buffer.alloc(4);
  sum.writeUInt32BE(crc32(Buffer.concat([head.subarray(4), data])), 0);
  return Buffer.concat([head, data, sum]);
}

/** CRC-32 as PNG uses it (ISO/IEC 15948 annex D). */
function crc32(bytes: Buffer): number {
  let crc = 0xffffffff;
  for (const byte of bytes) {
    crc ^= byte;
    for (let bit = 0; bit < 8; bit += 1) crc = crc & 1 ? (crc >>> 1) ^ 0xedb88320 : crc >>> 1;
  }
  return (crc ^ 0xffffffff) >>> 0;
}

/** A grey PNG of any size in a few hundred kilobytes: rows of zeros compress to nearly nothing. */
export function pngBomb(width: number, height: number): Buffer {
  const head = Buffer.alloc(13);
  head.writeUInt32BE(width, 0);
  head.writeUInt32BE(height, 4);
  head.set([8, 0, 0, 0, 0], 8);
  const row = Buffer.alloc(width + 1);
  const data = deflateSync(Buffer.concat(Array.from({ length: height }, () => row)), { level: 9 });
  const signature = Buffer.from([0x89, 0x50, 0x4e, 0x47, 0x0d, 0x0a, 0x1a, 0x0a]);
  return Buffer.concat([signature, pngChunk("IHDR", head), pngChunk("IDAT", data), pngChunk("IEND", Buffer.alloc(0))]);
}

/** A PNG whose header claims a size its few bytes never deliver. */
export function pngClaim(width: number, height: number): Buffer {
  const small = pngBomb(8, 8);
  const head = Buffer.alloc(13);
  head.writeUInt32BE(width, 0);
  head.writeUInt32BE(height, 4);
  head.set([8, 2, 0, 0, 0], 8);
  return Buffer.concat([small.subarray(0, 8), pngChunk("IHDR", head), small.subarray(8 + 25)]);
}
