// Picture bytes in, upright pixels and the derivatives made of them out. One full decode a picture.
import sharp from "sharp";
import { PhotoError } from "./errors.ts";
import type { DecodedHeic } from "./heic.ts";
import { type Grey, MEASURE_SIZE } from "./measures.ts";

export const FULL_SIZE = 2048;
export const THUMB_SIZE = 640;

export const FULL_WEBP = { quality: 82, effort: 2 } as const;
export const THUMB_WEBP = { quality: 78, effort: 2 } as const;

/** Upright sRGB pixels, three bytes each, no larger than `FULL_SIZE` on the longer side. */
export interface Pixels {
  readonly data: Buffer;
  readonly width: number;
  readonly height: number;
}

export interface DecodeLimits {
  readonly pixels: number;
  readonly seconds: number;
}

const within = (size: number) => ({ width: size, height: size, fit: "inside", withoutEnlargement: true }) as const;
const fromPixels = ({ data, width, height }: Pixels) => sharp(data, { raw: { width, height, channels: 3 } });

/** What the header says, before any pixel is decoded. */
export interface Header {
  /** Size as stored, before orientation. */
  readonly width: number;
  readonly height: number;
  readonly orientation: number;
  readonly exif: Buffer | undefined;
}

const describe = (error: unknown) => (error instanceof Error ? error.message : String(error));

/** The decoder's complaint as one of our refusals. */
export function refusalOf(error: unknown, limits: DecodeLimits): PhotoError {
  const text = describe(error);
  const cause = { cause: error };
  if (error instanceof PhotoError) return error;
  if (/pixel limit/i.test(text)) return tooManyPixels(limits.pixels);
  if (/timeout/i.test(text)) {
    return new PhotoError(
      "too_slow",
      `Expected a picture that opens within ${limits.seconds} s, got one that takes longer.`,
      cause,
    );
  }
  return new PhotoError("broken_photo", "Expected a whole picture, got one that is cut off or damaged.", cause);
}

export function tooManyPixels(limit: number, width?: number, height?: number): PhotoError {
  const most = Math.round(limit / 1e6);
  const got =
    width && height ? `one of ${Math.round((width * height) / 1e6)} megapixels (${width} by ${height})` : "a larger one";
  return new PhotoError("too_many_pixels", `Expected a picture of at most ${most} megapixels, got ${got}.`);
}

/** Reads the header only. @throws PhotoError `broken_photo`, `too_many_pixels` */
export async function readHeader(bytes: Buffer, limits: DecodeLimits): Promise<Header> {
  try {
    // The limit is checked by hand: the refusal can then name the size.
    const found = await sharp(bytes, { limitInputPixels: false, failOn: "none" }).metadata();
    const { width, height, orientation = 1, exif } = found;
    if (width * height > limits.pixels) throw tooManyPixels(limits.pixels, width, height);
    return { width, height, orientation: orientation >= 1 && orientation <= 8 ? orientation : 1, exif };
  } catch (error) {
    throw refusalOf(error, limits);
  }
}

/** Decodes once, upright, at most `FULL_SIZE` on the longer side; transparent parts become white. */
export async function decodePixels(source: Buffer | DecodedHeic, limits: DecodeLimits): Promise<Pixels> {
  const input = Buffer.isBuffer(source)
    ? sharp(source, { limitInputPixels: limits.pixels, failOn: "truncated" })
    : sharp(source.data, { raw: { width: source.width, height: source.height, channels: 4 } });
  try {
    const { data, info } = await input
      .autoOrient()
      .resize(within(FULL_SIZE))
      .flatten({ background: "#ffffff" })
      .toColourspace("srgb")
      .timeout({ seconds: limits.seconds })
      .raw({ depth: "uchar" })
      .toBuffer({ resolveWithObject: true });
    if (info.channels === 3) return { data, width: info.width, height: info.height };
    throw new Error(`${info.channels} channels`);
  } catch (error) {
    throw refusalOf(error, limits);
  }
}

/** The two pictures that screens show: neither carries any metadata. */
export async function makeDerivatives(pixels: Pixels): Promise<{ thumb: Buffer; full: Buffer }> {
  const [full, thumb] = await Promise.all([
    fromPixels(pixels).webp(FULL_WEBP).toBuffer(),
    fromPixels(pixels).resize(within(THUMB_SIZE)).webp(THUMB_WEBP).toBuffer(),
  ]);
  return { full, thumb };
}

/**
 * The green of upright pixels as a grey picture of `MEASURE_SIZE`: a sensor sees most of its light and detail in green, and
 * a black and white card or a steel part needs no more. One small picture serves focus, clipping, fingerprint and cards.
 */
export async function greyOf(pixels: Pixels): Promise<Grey> {
  const { data, width, height } = pixels;
  // A strip one pixel high has no half.
  if (Math.max(width, height) === 2 * MEASURE_SIZE && Math.min(width, height) > 1) return halved(pixels);
  const grey = new Uint8Array(width * height);
  for (let at = 0, from = 1; at < grey.length; at += 1, from += 3) grey[at] = data[from] as number;
  return shrunk({ data: grey, width, height }, MEASURE_SIZE);
}

/** Green at half size, the mean of each two by two: what a phone's picture comes to, without another pass. */
function halved({ data, width, height }: Pixels): Grey {
  const [w, h] = [width >> 1, height >> 1];
  const grey = new Uint8Array(w * h);
  const below = width * 3;
  for (let y = 0; y < h; y += 1) {
    for (let x = 0, from = y * 2 * below + 1; x < w; x += 1, from += 6) {
      const above = (data[from] as number) + (data[from + 3] as number);
      const under = (data[from + below] as number) + (data[from + below + 3] as number);
      grey[y * w + x] = (above + under + 2) >> 2;
    }
  }
  return { data: grey, width: w, height: h };
}

/** A grey picture at most `size` on the longer side. */
export async function shrunk({ data, width, height }: Grey, size: number): Promise<Grey> {
  if (Math.max(width, height) <= size) return { data, width, height };
  const out = await sharp(data, { raw: { width, height, channels: 1 } })
    .resize(within(size))
    .toColourspace("b-w")
    .raw({ depth: "uchar" })
    .toBuffer({ resolveWithObject: true });
  return { data: out.data, width: out.info.width, height: out.info.height };
}
