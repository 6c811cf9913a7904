// Bytes sent raw and named in an event: only a real clip or picture becomes proof, and no event turns one into the other.
import { createHash } from "node:crypto";
import sharp from "sharp";
import { beforeEach, describe, expect, it } from "vitest";
import type { EventData } from "../../../shared/events/events.ts";
import { bootShop, makeEvent, makeWav, openDemoBuild, type TestShop } from "../helper.ts";

let shop: TestShop;
let build: string;
beforeEach(async () => {
  shop = await bootShop();
  build = await openDemoBuild(shop.app);
});

const sha256 = (bytes: Buffer) => createHash("sha256").update(bytes).digest("hex");
const put = (bytes: Buffer) =>
  shop.app.inject({
    method: "PUT",
    url: `/api/blobs/${sha256(bytes)}`,
    payload: bytes,
    headers: { "content-type": "application/octet-stream" },
  });
const send = (...events: unknown[]) =>
  shop.app.inject({ method: "POST", url: `/api/builds/${build}/events`, payload: { events } });
const picture = () =>
  sharp({ create: { width: 64, height: 48, channels: 3, background: "#777" } })
    .jpeg()
    .toBuffer();

const photoOf = (bytes: Buffer, over: Partial<EventData["photo.taken"]["photo"]> = {}) =>
  makeEvent(build, "photo.taken", {
    place: {},
    photo: {
      sha256: sha256(bytes),
      bytes: bytes.length,
      type: "image/jpeg",
      width: 64,
      height: 48,
      orientation: 1,
      taken: { at: "2026-03-04T10:11:12+01:00", source: "shutter", zoneKnown: true },
      fingerprint: "0123456789abcdef",
      focus: 10,
      highlights: 0,
      shadows: 0,
      ...over,
    },
  });
const clipOf = (bytes: Buffer) => makeEvent(build, "utterance.heard", { text: "words", by: "voice", clip: sha256(bytes) });

describe("raw bytes", () => {
  it("of a picture become a photo that is shown as a copy", async () => {
    const bytes = await picture();
    await put(bytes);
    expect((await send(photoOf(bytes))).statusCode).toBe(200);
    expect((await shop.app.inject(`/api/photos/${sha256(bytes)}/thumb`)).headers["content-type"]).toBe("image/webp");
  });

  it.each([
    [
      "an SVG said to be a JPEG",
      async () => Buffer.from("<svg xmlns='http://www.w3.org/2000/svg'/>"),
      photoOf,
      415,
      "wrong_type",
    ],
    [
      "a PNG said to be a JPEG",
      async () =>
        sharp(await picture())
          .png()
          .toBuffer(),
      photoOf,
      415,
      "wrong_type",
    ],
    [
      "a picture said to be larger",
      picture,
      (bytes: Buffer) => photoOf(bytes, { bytes: bytes.length + 1 }),
      400,
      "invalid_event",
    ],
    [
      "a web page said to be a clip",
      async () => Buffer.from("<!doctype html><script>alert(1)</script>"),
      clipOf,
      415,
      "clip_not_wav",
    ],
    ["half a clip", async () => makeWav().subarray(0, 4000), clipOf, 422, "clip_truncated"],
  ])("of %s are refused", async (_what, make, eventOf, status, code) => {
    const bytes = await make();
    await put(bytes);
    const answer = await send(eventOf(bytes));
    expect([answer.statusCode, answer.json().code]).toEqual([status, code]);
    expect((await shop.app.inject(`/api/builds/${build}`)).json().head.seq).toBe(1);
    expect((await shop.app.inject(`/api/blobs/${sha256(bytes)}`)).statusCode).toBe(404);
  });

  it("of a photo's original are not handed out by calling them a clip", async () => {
    const bytes = await picture();
    await put(bytes);
    await send(photoOf(bytes));
    expect((await send(clipOf(bytes))).json().code).toBe("clip_not_wav");
    expect((await shop.app.inject(`/api/blobs/${sha256(bytes)}`)).json().code).toBe("unknown_blob");
  });

  it("sent again with their event are answered as before", async () => {
    const wav = makeWav();
    await put(wav);
    const event = clipOf(wav);
    const first = await send(event);
    await put(wav);
    expect((await send(event)).json()).toEqual(first.json());
  });
});
