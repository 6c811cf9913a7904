// HEIC bytes in, RGBA pixels out, decoded in a process of its own with a pixel cap and a time limit.
import { spawn } from "node:child_process";
import { fileURLToPath } from "node:url";
import { PhotoError } from "./errors.ts";
import { largestHeicSize } from "./heic-size.ts";
import { type DecodeLimits, tooManyPixels } from "./pixels.ts";

export interface DecodedHeic {
  readonly data: Buffer;
  readonly width: number;
  readonly height: number;
}

/** In development the sources run as they are, so the child needs the same loader. */
const SOURCE = import.meta.url.endsWith(".ts");
const CHILD = fileURLToPath(new URL(SOURCE ? "./heic-child.ts" : "./heic-child.js", import.meta.url));
/** Heap of the child in MB; the decoder's own memory is bounded by the pixel cap, checked before and in the child. */
const HEAP = 512;

const broken = (cause?: unknown) =>
  new PhotoError("broken_photo", "Expected a whole HEIC picture, got one that is cut off or damaged.", { cause });

/**
 * Decodes a HEIC picture, upright. A decoder that hangs or dies takes its own process down, nothing else.
 * @throws PhotoError `too_many_pixels`, `too_slow`, `broken_photo`
 */
export async function decodeHeic(bytes: Buffer, limits: DecodeLimits): Promise<DecodedHeic> {
  const size = largestHeicSize(bytes);
  if (size && size.width * size.height > limits.pixels) throw tooManyPixels(limits.pixels, size.width, size.height);
  const args = [`--max-old-space-size=${HEAP}`, ...(SOURCE ? ["--import", "tsx"] : []), CHILD, String(limits.pixels)];
  const child = spawn(process.execPath, args, { stdio: ["pipe", "pipe", "ignore"] });
  let late = false;
  const timer = setTimeout(() => {
    late = true;
    child.kill("SIGKILL");
  }, limits.seconds * 1000);
  try {
    // The child may refuse before it has read all: a closed pipe is then no news.
    child.stdin.on("error", () => undefined);
    child.stdin.end(bytes);
    const chunks: Buffer[] = [];
    for await (const chunk of child.stdout) chunks.push(chunk as Buffer);
    return pixelsOf(Buffer.concat(chunks), limits);
  } catch (error) {
    if (late)
      throw new PhotoError("too_slow", `Expected a picture that opens within ${limits.seconds} s, got one that takes longer.`);
    throw error instanceof PhotoError ? error : broken(error);
  } finally {
    clearTimeout(timer);
    child.kill("SIGKILL");
  }
}

/** The child's answer: width and height as 32-bit numbers, then RGBA; zero width means too many pixels. */
function pixelsOf(answer: Buffer, limits: DecodeLimits): DecodedHeic {
  if (answer.length < 8) throw broken();
  const [width, height] = [answer.readUInt32LE(0), answer.readUInt32LE(4)];
  if (width === 0) throw tooManyPixels(limits.pixels);
  if (answer.length !== 8 + width * height * 4) throw broken();
  return { width, height, data: answer.subarray(8) };
}
