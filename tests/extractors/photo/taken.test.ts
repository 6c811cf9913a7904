// Capture time: which Exif tag said it, whether its zone was known, and that this computer's own zone never leaks in.
import { execFileSync } from "node:child_process";
import { mkdtempSync, rmSync, writeFileSync } from "node:fs";
import { tmpdir } from "node:os";
import { join } from "node:path";
import { describe, expect, it } from "vitest";
import { readPhoto } from "../../../extractors/photo/index.ts";
import { type TimeTags, takenAt, takenFromTags } from "../../../extractors/photo/taken.ts";
import { type ExifFields, jpeg } from "./fixtures.ts";

const NOW = "2026-06-01T12:00:00.000Z";
const ORIGINAL = "2026:05:03 10:11:12";

/** Tag names, formats and meanings: Exif 2.32 (CIPA DC-008-2019), sections 4.6.4 and 4.6.5, group F. */
const TABLE: [string, TimeTags, ReturnType<typeof takenFromTags>][] = [
  [
    "original with its offset",
    { DateTimeOriginal: ORIGINAL, OffsetTimeOriginal: "+02:00" },
    { at: "2026-05-03T10:11:12+02:00", source: "exif_original", zoneKnown: true },
  ],
  [
    "fractions of a second",
    { DateTimeOriginal: ORIGINAL, SubSecTimeOriginal: "074", OffsetTimeOriginal: "-05:30" },
    { at: "2026-05-03T10:11:12.074-05:30", source: "exif_original", zoneKnown: true },
  ],
  ["no offset", { DateTimeOriginal: ORIGINAL }, { at: "2026-05-03T10:11:12", source: "exif_original", zoneKnown: false }],
  [
    "blank offset",
    { DateTimeOriginal: ORIGINAL, OffsetTimeOriginal: "   :  " },
    { at: "2026-05-03T10:11:12", source: "exif_original", zoneKnown: false },
  ],
  [
    "the offset of the last change is not the offset of the shutter",
    { DateTimeOriginal: ORIGINAL, OffsetTime: "+09:00" },
    { at: "2026-05-03T10:11:12", source: "exif_original", zoneKnown: false },
  ],
  [
    "unknown original, then digitized",
    { DateTimeOriginal: "    :  :     :  :  ", DateTimeDigitized: "2026:05:04 01:02:03", OffsetTimeDigitized: "+01:00" },
    { at: "2026-05-04T01:02:03+01:00", source: "exif_digitized", zoneKnown: true },
  ],
  [
    "only the last change",
    { DateTime: "2026:05:05 06:07:08", OffsetTime: "Z" },
    { at: "2026-05-05T06:07:08Z", source: "exif_modified", zoneKnown: true },
  ],
  ["month 13", { DateTimeOriginal: "2026:13:03 10:11:12" }, null],
  ["31 February", { DateTimeOriginal: "2026:02:31 10:11:12" }, null],
  ["zeros", { DateTimeOriginal: "0000:00:00 00:00:00" }, null],
  ["a clock at its factory date", { DateTimeOriginal: "1980:01:01 00:00:00" }, null],
  ["a year ahead of the server", { DateTimeOriginal: "2027:05:03 10:11:12", OffsetTimeOriginal: "+00:00" }, null],
  ["words", { DateTimeOriginal: "yesterday" }, null],
  ["none", {}, null],
];

describe("capture time from Exif tags", () => {
  it.each(TABLE)("%s", (_, tags, expected) => {
    expect(takenFromTags(tags, NOW)).toEqual(expected);
  });

  it("falls back to the shutter's clock, then to the server's", () => {
    const shutter = "2026-06-01T13:59:58.120+02:00";
    expect(takenAt({}, { shutter, receivedAt: NOW })).toEqual({ at: shutter, source: "shutter", zoneKnown: true });
    const sent = "2026-06-01T14:02:30.040+02:00";
    expect(takenAt({}, { shutter, sent, receivedAt: NOW })).toMatchObject({ source: "shutter", deviceAhead: 150 });
    const slow = takenAt({ DateTimeOriginal: ORIGINAL }, { sent: "2026-06-01T11:59:00Z", receivedAt: NOW });
    expect(slow).toMatchObject({ source: "exif_original", deviceAhead: -60 });
    expect(takenAt({}, { receivedAt: NOW })).toEqual({ at: NOW, source: "server", zoneKnown: true });
  });
});

/** Fixtures are written by the libvips Exif writer, which knows nothing of ours. */
const FILES: [string, ExifFields, string, string][] = [
  ["original", { DateTimeOriginal: ORIGINAL, OffsetTimeOriginal: "+02:00" }, "exif_original", "2026-05-03T10:11:12+02:00"],
  ["digitized", { DateTimeDigitized: ORIGINAL, OffsetTimeDigitized: "-06:00" }, "exif_digitized", "2026-05-03T10:11:12-06:00"],
  ["last change", { DateTime: ORIGINAL }, "exif_modified", "2026-05-03T10:11:12"],
];

describe("capture time from files", () => {
  it.each(FILES)("%s", async (_, exif, source, at) => {
    const { facts } = await readPhoto(await jpeg(exif), { receivedAt: NOW });
    expect(facts.taken).toEqual({ at, source, zoneKnown: at.length > 19 });
  });

  it.each(["image/png", "image/webp"] as const)("reads the Exif block of %s", async (type) => {
    const sharp = (await import("sharp")).default;
    const carrier = sharp(await jpeg({ DateTimeOriginal: ORIGINAL, OffsetTimeOriginal: "+02:00" })).keepExif();
    const bytes = await (type === "image/png" ? carrier.png() : carrier.webp()).toBuffer();
    const { facts } = await readPhoto(bytes, { receivedAt: NOW });
    expect(facts.type).toBe(type);
    expect(facts.taken.at).toBe("2026-05-03T10:11:12+02:00");
  });

  it.each(["America/Chicago", "Asia/Kolkata", "UTC"])("does not depend on the computer's zone: %s", async (zone) => {
    const folder = mkdtempSync(join(tmpdir(), "photo-zone-"));
    try {
      const file = join(folder, "p.jpg");
      writeFileSync(file, await jpeg({ DateTimeOriginal: ORIGINAL, OffsetTimeOriginal: "+02:00" }));
      const bare = join(folder, "bare.jpg");
      writeFileSync(bare, await jpeg({ DateTimeOriginal: ORIGINAL }));
      const script = `import { readPhoto } from ${JSON.stringify(join(process.cwd(), "extractors/photo/index.ts"))};
        const out = [];
        for (const file of process.argv.slice(2)) out.push((await readPhoto(file, { receivedAt: "${NOW}" })).facts.taken.at);
        process.stdout.write(JSON.stringify(out));`;
      const runner = join(folder, "run.mts");
      writeFileSync(runner, script);
      const out = execFileSync(process.execPath, ["--import", "tsx", runner, file, bare], { env: { ...process.env, TZ: zone } });
      expect(JSON.parse(out.toString())).toEqual(["2026-05-03T10:11:12+02:00", "2026-05-03T10:11:12"]);
    } finally {
      rmSync(folder, { recursive: true });
    }
  });
});
