// Photos: original bytes kept untouched and never handed out, facts logged, derived pictures without metadata.
import { createHash } from "node:crypto";
import { readFile, rm } from "node:fs/promises";
import sharp from "sharp";
import { v7 } from "uuid";
import { describe, expect, it } from "vitest";
import { photosAnswerSchema } from "../../../shared/api/entries.ts";
import { bootShop, multipart, openDemoBuild } from "../helper.ts";

/** A picture that carries a place on earth, as phones write it (Exif 2.32, GPS IFD). */
async function photoWithLocation(): Promise<Buffer> {
  return sharp({ create: { width: 1200, height: 900, channels: 3, background: "#556" } })
    .withExif({ IFD0: { Make: "test" }, IFD3: { GPSLatitudeRef: "N", GPSLatitude: "51/1 30/1 0/1" } })
    .jpeg()
    .toBuffer();
}
const sha256 = (bytes: Buffer) => createHash("sha256").update(bytes).digest("hex");
const form = (photos: readonly Buffer[], fields: Record<string, string> = {}) =>
  multipart([
    ...photos.map((value, index) => ({ name: "photo", filename: `../../${index}.jpg`, type: "text/html", value })),
    ...Object.entries(fields).map(([name, value]) => ({ name, value })),
  ]);

describe("photos", () => {
  it("become events with facts, place and step; the original stays byte for byte and is not handed out", async () => {
    const { app, data } = await bootShop();
    const build = await openDemoBuild(app);
    const photo = await photoWithLocation();
    expect(photo.includes("Exif")).toBe(true);
    const fields = {
      place: '{"cylinder":2}',
      step: "bores",
      statement: "crosshatch",
      shutter: "2026-03-04T10:11:12+01:00",
      by: "Kit",
    };
    const answer = await app.inject({ method: "POST", url: `/api/builds/${build}/photos`, ...form([photo], fields) });
    expect(answer.statusCode).toBe(200);
    const event = photosAnswerSchema.parse(answer.json()).events[0]?.event;
    expect(event).toMatchObject({
      type: "photo.taken",
      by: "Kit",
      data: { place: { cylinder: 2 }, step: "bores", statement: "crosshatch" },
    });
    const facts = event?.type === "photo.taken" ? event.data.photo : undefined;
    expect(facts).toMatchObject({
      sha256: sha256(photo),
      bytes: photo.length,
      width: 1200,
      height: 900,
      taken: { source: "shutter" },
    });
    expect((await readFile(data.blobs.path(sha256(photo)))).equals(photo)).toBe(true);
    const original = await app.inject(`/api/blobs/${sha256(photo)}`);
    expect([original.statusCode, original.json().code]).toEqual([404, "unknown_blob"]);
  });

  it.each(["thumb", "full"])("are shown as a %s without metadata, made anew where the copy is gone", async (size) => {
    const { app, deps } = await bootShop();
    const build = await openDemoBuild(app);
    const photo = await photoWithLocation();
    await app.inject({ method: "POST", url: `/api/builds/${build}/photos`, ...form([photo]) });
    const url = `/api/photos/${sha256(photo)}/${size}`;
    const kept = await app.inject(url);
    await rm(deps.derivedDir, { recursive: true });
    for (const shown of [kept, await app.inject(url)]) {
      expect([shown.statusCode, shown.headers["content-type"], shown.headers["x-content-type-options"]]).toEqual([
        200,
        "image/webp",
        "nosniff",
      ]);
      const { format, width, exif } = await sharp(shown.rawPayload).metadata();
      expect([format, width, exif]).toEqual(["webp", size === "thumb" ? 640 : 1200, undefined]);
    }
    expect((await app.inject(`/api/photos/${"a".repeat(64)}/${size}`)).json().code).toBe("unknown_blob");
  });

  it("may come several at once, and again under the same id without being logged twice", async () => {
    const { app } = await bootShop();
    const build = await openDemoBuild(app);
    const one = await photoWithLocation();
    const two = await sharp(one).rotate(90).jpeg().toBuffer();
    const send = () => app.inject({ method: "POST", url: `/api/builds/${build}/photos`, ...form([one, two], { id }) });
    const id = v7();
    const first = await send();
    expect(first.json().events).toHaveLength(2);
    expect((await send()).json()).toEqual(first.json());
    expect((await app.inject(`/api/builds/${build}`)).json().counts.photos).toBe(2);
  });
});
