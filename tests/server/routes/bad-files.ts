// Requests and files that are wrong in one way each.
import { createHash } from "node:crypto";
import type { InjectOptions } from "fastify";
import sharp from "sharp";
import { makeWav, multipart } from "../helper.ts";

export const json = (payload: unknown): InjectOptions => ({ method: "POST", payload: payload as object });
export const photo = (value: Buffer, filename = "x.jpg", type = "image/jpeg"): InjectOptions => ({
  method: "POST",
  ...multipart([{ name: "photo", filename, type, value }]),
});
export const text = (payload: string, type = "application/json"): InjectOptions => ({
  method: "POST",
  payload,
  headers: { "content-type": type },
});
export const wavHeader = () => makeWav(0.5);
export const tooLong = () => makeWav(61, 8000);

export function badFormat(): Buffer {
  const wav = makeWav();
  wav.writeUInt16LE(85, 20);
  return wav;
}
export async function goodJpeg(): Promise<Buffer> {
  return sharp({ create: { width: 64, height: 48, channels: 3, background: "#777" } })
    .jpeg()
    .toBuffer();
}
export async function halfJpeg(): Promise<Buffer> {
  const noise = Buffer.from(createHash("sha512").update("seed").digest("hex").repeat(300));
  const whole = await sharp(noise.subarray(0, 96 * 96 * 3), { raw: { width: 96, height: 96, channels: 3 } })
    .jpeg()
    .toBuffer();
  return whole.subarray(0, Math.floor(whole.length / 2));
}
export async function pixelBomb(): Promise<Buffer> {
  return sharp({ create: { width: 14_000, height: 14_000, channels: 3, background: "#fff" } })
    .png({ compressionLevel: 9 })
    .toBuffer();
}
