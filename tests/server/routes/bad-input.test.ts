// Bad input from outside: stable code, right status, one plain sentence, and nothing that is stored is touched.
import { readdir } from "node:fs/promises";
import type { InjectOptions } from "fastify";
import { v7 } from "uuid";
import { beforeEach, describe, expect, it } from "vitest";
import { errorSchema } from "../../../shared/api/errors.ts";
import { bootShop, clipForm, makeEvent, makeWav, multipart, openDemoBuild, type TestShop, textEvent } from "../helper.ts";
import { badFormat, goodJpeg, halfJpeg, json, photo, pixelBomb, text, tooLong, wavHeader } from "./bad-files.ts";

let shop: TestShop;
let build: string;
let before: string;

/** Everything the shop keeps: every row of the log and the name and size of every file. */
async function everything(): Promise<string> {
  const { store, blobs } = shop.data;
  const rows = [];
  for (const head of await store.heads()) rows.push(...(await store.rowsAfter(head.build, 0, 1000)));
  const names = [];
  for await (const name of blobs.names()) names.push(name, await blobs.size(name));
  return JSON.stringify({ rows, names, refs: await store.blobRefs(), incoming: await readdir(`${blobs.dir}/incoming`) });
}

beforeEach(async () => {
  shop = await bootShop();
  build = await openDemoBuild(shop.app);
  const said = await shop.app.inject({ method: "POST", url: `/api/builds/${build}/clips`, ...clipForm(makeWav()) });
  expect(said.statusCode).toBe(200);
  before = await everything();
});

const unknownBuild = v7();

const CASES: readonly (readonly [
  what: string,
  url: string,
  request: () => InjectOptions | Promise<InjectOptions>,
  status: number,
  code: string,
])[] = [
  ["malformed JSON", "/api/builds/:build/utterances", () => text('{"text": "bore'), 400, "malformed_json"],
  ["no body at all", "/api/builds/:build/utterances", () => text(""), 400, "malformed_json"],
  ["a prototype in JSON", "/api/builds/:build/utterances", () => text('{"text":"a","__proto__":{"x":1}}'), 400, "malformed_json"],
  ["a body of another type", "/api/builds/:build/utterances", () => text("<a/>", "text/xml"), 415, "wrong_type"],
  [
    "a text/plain body, as a foreign page's form sends it",
    "/api/builds/:build/utterances",
    () => text('{"text":"a"}', "text/plain"),
    415,
    "wrong_type",
  ],
  ["words that are no text", "/api/builds/:build/utterances", () => json({ text: 12 }), 400, "invalid_request"],
  ["empty words", "/api/builds/:build/utterances", () => json({ text: "   " }), 400, "invalid_request"],
  ["over-long words", "/api/builds/:build/utterances", () => json({ text: "bore ".repeat(500) }), 400, "invalid_request"],
  ["an unknown field", "/api/builds/:build/utterances", () => json({ text: "bore", colour: "red" }), 400, "invalid_request"],
  ["a step that is none", "/api/builds/:build/utterances", () => json({ text: "bore", step: "polish" }), 400, "invalid_request"],
  [
    "a place that is none",
    "/api/builds/:build/utterances",
    () => json({ text: "bore", place: { cylinder: 0 } }),
    400,
    "invalid_request",
  ],
  ["a body of 5 MB", "/api/builds/:build/utterances", () => json({ text: "x".repeat(5_000_000) }), 413, "too_large"],
  ["an unknown build", `/api/builds/${unknownBuild}/utterances`, () => json({ text: "bore" }), 404, "unknown_build"],
  ["a build that is no id", "/api/builds/../../etc/utterances", () => json({ text: "bore" }), 404, "not_found"],
  ["a build named by a word", "/api/builds/mill/utterances", () => json({ text: "bore" }), 404, "unknown_build"],
  ["a build without a spec sheet", "/api/builds", () => json({ name: "Bare" }), 400, "invalid_request"],
  ["a build without a name", "/api/builds", () => json({ name: "", demo: true }), 400, "invalid_request"],
  [
    "an event of no known type",
    "/api/builds/:build/events",
    () => json({ events: [{ ...textEvent(build, "a"), type: "build.deleted" }] }),
    400,
    "invalid_event",
  ],
  [
    "an event with a field too many",
    "/api/builds/:build/events",
    () => json({ events: [{ ...textEvent(build, "a"), seq: 1 }] }),
    400,
    "invalid_event",
  ],
  [
    "an event with a local time",
    "/api/builds/:build/events",
    () => json({ events: [{ ...textEvent(build, "a"), at: "2026-03-04T10:11:12" }] }),
    400,
    "invalid_event",
  ],
  [
    "a good event with a bad one behind it",
    "/api/builds/:build/events",
    () => json({ events: [textEvent(build, "a"), { ...textEvent(build, "b"), by: "" }] }),
    400,
    "invalid_event",
  ],
  [
    "an event of another build",
    "/api/builds/:build/events",
    () => json({ events: [textEvent(unknownBuild, "a")] }),
    422,
    "wrong_build",
  ],
  [
    "a second opening",
    "/api/builds/:build/events",
    () =>
      json({
        events: [
          makeEvent(build, "step.closed", { step: "rings" }),
          makeEvent(build, "build.opened", { name: "x", spec: { ...{} } as never }),
        ],
      }),
    400,
    "invalid_event",
  ],
  [
    "an event on a clip never sent",
    "/api/builds/:build/events",
    () => json({ events: [makeEvent(build, "utterance.heard", { text: "a", by: "voice", clip: "c".repeat(64) })] }),
    422,
    "blob_missing",
  ],
  ["no events", "/api/builds/:build/events", () => json({ events: [] }), 400, "invalid_request"],
  [
    "501 events",
    "/api/builds/:build/events",
    () => json({ events: Array.from({ length: 501 }, (_, i) => textEvent(build, `${i}`)) }),
    400,
    "invalid_request",
  ],
  ["an empty clip", "/api/builds/:build/clips", () => ({ method: "POST", ...clipForm(Buffer.alloc(0)) }), 422, "clip_empty"],
  ["a clip without a sample", "/api/builds/:build/clips", () => ({ method: "POST", ...clipForm(makeWav(0)) }), 422, "clip_empty"],
  [
    "a truncated clip",
    "/api/builds/:build/clips",
    () => ({ method: "POST", ...clipForm(makeWav().subarray(0, 5000)) }),
    422,
    "clip_truncated",
  ],
  [
    "a clip cut within its header",
    "/api/builds/:build/clips",
    () => ({ method: "POST", ...clipForm(wavHeader().subarray(0, 30)) }),
    422,
    "clip_truncated",
  ],
  [
    "a clip that is a text",
    "/api/builds/:build/clips",
    () => ({ method: "POST", ...clipForm(Buffer.from("bore one three eight seven five")) }),
    415,
    "clip_not_wav",
  ],
  [
    "a clip in another encoding",
    "/api/builds/:build/clips",
    () => ({ method: "POST", ...clipForm(badFormat()) }),
    415,
    "clip_encoding_unknown",
  ],
  ["a clip of 61 seconds", "/api/builds/:build/clips", () => ({ method: "POST", ...clipForm(tooLong()) }), 422, "clip_too_long"],
  [
    "a clip of 17 MB",
    "/api/builds/:build/clips",
    () => ({ method: "POST", ...clipForm(Buffer.alloc(17 * 1024 * 1024)) }),
    413,
    "too_large",
  ],
  [
    "a form without a clip",
    "/api/builds/:build/clips",
    () => ({ method: "POST", ...multipart([{ name: "by", value: "Kit" }]) }),
    422,
    "no_file",
  ],
  [
    "a clip in another field",
    "/api/builds/:build/clips",
    () => ({ method: "POST", ...multipart([{ name: "file", filename: "a.wav", value: makeWav() }]) }),
    400,
    "invalid_request",
  ],
  [
    "two clips at once",
    "/api/builds/:build/clips",
    () => ({ method: "POST", ...multipart([0, 1].map(() => ({ name: "clip", filename: "a.wav", value: makeWav() }))) }),
    413,
    "too_many_files",
  ],
  [
    "a clip with a broken place",
    "/api/builds/:build/clips",
    () => ({ method: "POST", ...clipForm(makeWav(), { place: "{cylinder" }) }),
    400,
    "invalid_request",
  ],
  [
    "a clip form that stops short",
    "/api/builds/:build/clips",
    () => {
      const form = clipForm(makeWav());
      return { method: "POST", headers: form.headers, payload: form.payload.subarray(0, 400) };
    },
    400,
    "malformed_upload",
  ],
  ...["x".repeat(5000), "x".repeat(71), ""].flatMap((boundary) =>
    ["clips", "photos"].map(
      (what) =>
        [
          `a form of ${what} with a boundary of ${boundary.length} characters`,
          `/api/builds/:build/${what}`,
          (): InjectOptions => ({
            method: "POST",
            headers: { "content-type": `multipart/form-data; boundary=${boundary}` },
            payload: `--${boundary}\r\nContent-Disposition: form-data; name="by"\r\n\r\nKit\r\n--${boundary}--\r\n`,
          }),
          400,
          "malformed_upload",
        ] as const,
    ),
  ),
  ["a clip sent as JSON", "/api/builds/:build/clips", () => json({ clip: "UklGRg==" }), 415, "wrong_type"],
  [
    "a clip for an unknown build",
    `/api/builds/${unknownBuild}/clips`,
    () => ({ method: "POST", ...clipForm(makeWav()) }),
    404,
    "unknown_build",
  ],
  [
    "sound to be heard that is none",
    "/api/hear",
    () => ({ method: "POST", ...clipForm(Buffer.from("RIFF")) }),
    415,
    "clip_not_wav",
  ],
  ["a photo of no bytes", "/api/builds/:build/photos", () => photo(Buffer.alloc(0)), 422, "empty_photo"],
  ["a photo that is a script", "/api/builds/:build/photos", () => photo(Buffer.from("#!/bin/sh\nreboot\n")), 415, "wrong_type"],
  [
    "an SVG named .jpg",
    "/api/builds/:build/photos",
    () => photo(Buffer.from('<svg xmlns="http://www.w3.org/2000/svg"><script>alert(1)</script></svg>')),
    415,
    "wrong_type",
  ],
  [
    "a web page named .png",
    "/api/builds/:build/photos",
    () => photo(Buffer.from("<!doctype html><script>alert(1)</script>"), "a.png", "image/png"),
    415,
    "wrong_type",
  ],
  ["half a JPEG", "/api/builds/:build/photos", async () => photo(await halfJpeg()), 422, "broken_photo"],
  [
    "a JPEG of noise behind its first bytes",
    "/api/builds/:build/photos",
    () => photo(Buffer.concat([Buffer.from([0xff, 0xd8, 0xff, 0xe0]), Buffer.alloc(5000, 7)])),
    422,
    "broken_photo",
  ],
  [
    "a picture of 196 million pixels in a few bytes",
    "/api/builds/:build/photos",
    async () => photo(await pixelBomb(), "a.png", "image/png"),
    422,
    "too_many_pixels",
  ],
  [
    "a good photo with a bad one behind it",
    "/api/builds/:build/photos",
    async () => ({
      method: "POST",
      ...multipart([
        { name: "photo", filename: "a.jpg", value: await goodJpeg() },
        { name: "photo", filename: "b.jpg", value: Buffer.from("no") },
      ]),
    }),
    415,
    "wrong_type",
  ],
  [
    "a photo for an unknown build",
    `/api/builds/${unknownBuild}/photos`,
    async () => photo(await goodJpeg()),
    404,
    "unknown_build",
  ],
  [
    "a blob under another's hash",
    `/api/blobs/${"a".repeat(64)}`,
    () => ({ method: "PUT", payload: makeWav(), headers: { "content-type": "application/octet-stream" } }),
    400,
    "hash_mismatch",
  ],
  [
    "a blob under a path",
    "/api/blobs/..%2f..%2fthoubook.db",
    () => ({ method: "PUT", payload: makeWav(), headers: { "content-type": "application/octet-stream" } }),
    404,
    "unknown_blob",
  ],
  ["a blob as JSON", `/api/blobs/${"a".repeat(64)}`, () => ({ method: "PUT", payload: { a: 1 } }), 415, "wrong_type"],
  ["an unknown address", "/api/engines", () => ({ method: "GET" }), 404, "not_found"],
  ["a verb an address does not know", "/api/builds/:build", () => ({ method: "DELETE" }), 404, "not_found"],
  ["a page number that is none", "/api/builds/:build/events?after=-1", () => ({ method: "GET" }), 400, "invalid_request"],
  ["a page of a million", "/api/builds/:build/events?limit=1000000", () => ({ method: "GET" }), 400, "invalid_request"],
];

describe("bad input", () => {
  it.each(CASES)("%s", async (_what, url, request, status, code) => {
    const answer = await shop.app.inject({ url: url.replace(":build", build), ...(await request()) });
    const body = errorSchema.parse(answer.json());
    expect([answer.statusCode, body.code]).toEqual([status, code]);
    expect(body.message).toMatch(/^Expected .+, got .+/s);
    expect(await everything()).toBe(before);
  });
});
