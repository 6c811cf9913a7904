// Pictures damaged at random: each is read or refused with a PhotoError; nothing else is thrown and nothing hangs.
import fc from "fast-check";
import sharp from "sharp";
import { beforeAll, describe, expect, it } from "vitest";
import { readTimeTags } from "../../../extractors/photo/exif.ts";
import { openPhotoReader, PhotoError } from "../../../extractors/photo/index.ts";
import { photoFactsSchema } from "../../../shared/events/events.ts";
import { jpeg, scene } from "./fixtures.ts";

const originals: Buffer[] = [];
let exif: Buffer = Buffer.alloc(0);
beforeAll(async () => {
  const dated = await jpeg({ DateTimeOriginal: "2026:05:03 10:11:12", OffsetTimeOriginal: "+02:00" }, 6);
  exif = (await sharp(dated).metadata()).exif ?? exif;
  const small = await scene(160, 120);
  originals.push(dated, small, await sharp(small).webp().toBuffer(), await sharp(small).jpeg({ progressive: true }).toBuffer());
});

/** Up to twelve bytes changed, most of them near the start where the headers are, and the end cut off now and then. */
const damage = fc.record({
  which: fc.nat({ max: 3 }),
  changes: fc.array(fc.tuple(fc.oneof(fc.nat({ max: 200 }), fc.nat({ max: 20_000 })), fc.nat({ max: 255 })), {
    minLength: 1,
    maxLength: 12,
  }),
  keep: fc.oneof(fc.constant(1), fc.double({ min: 0.01, max: 1, noNaN: true })),
});

function damaged(bytes: Buffer, changes: readonly (readonly [number, number])[], keep: number): Buffer {
  const copy = Buffer.from(bytes.subarray(0, Math.max(1, Math.floor(bytes.length * keep))));
  for (const [at, value] of changes) copy[at % copy.length] = value;
  return copy;
}

describe("damaged pictures", () => {
  it("are read or refused, never anything else", async () => {
    const reader = openPhotoReader({ seconds: 5 });
    await fc.assert(
      fc.asyncProperty(damage, async ({ which, changes, keep }) => {
        const bytes = damaged(originals[which] ?? Buffer.alloc(0), changes, keep);
        try {
          const { facts } = await reader.read(bytes, { receivedAt: "2026-06-01T12:00:00Z" });
          expect(photoFactsSchema.safeParse(facts).error).toBeUndefined();
        } catch (error) {
          expect(error).toBeInstanceOf(PhotoError);
        }
      }),
      { numRuns: 150 },
    );
  }, 60_000);

  it("with a damaged Exif block give no time or a text, and no error", async () => {
    await fc.assert(
      fc.asyncProperty(damage, async ({ changes, keep }) => {
        for (const value of Object.values(await readTimeTags(damaged(exif, changes, keep)))) expect(typeof value).toBe("string");
      }),
      { numRuns: 300 },
    );
  });
});
