// The Exif block of a picture in, its time tags as raw strings out. Nothing else is read: location stays in the original.
import exifr from "exifr";
import type { TimeTags } from "./taken.ts";

/** Tag numbers of Exif 2.32 and the names it gives them; the reading library names two of them otherwise. */
const TAGS: Readonly<Record<keyof TimeTags, number>> = {
  DateTime: 0x0132,
  DateTimeOriginal: 0x9003,
  DateTimeDigitized: 0x9004,
  OffsetTime: 0x9010,
  OffsetTimeOriginal: 0x9011,
  OffsetTimeDigitized: 0x9012,
  SubSecTime: 0x9290,
  SubSecTimeOriginal: 0x9291,
  SubSecTimeDigitized: 0x9292,
};

const EXIF_HEADER = "Exif\0\0";

/**
 * Time tags of an Exif block (TIFF structure, with or without its "Exif" header); none where it cannot be read.
 * Strings are kept as written: reviving them to dates would put them into this computer's zone and drop their offset.
 */
export async function readTimeTags(block: Buffer | undefined): Promise<TimeTags> {
  if (!block || block.length < 14) return {};
  const tiff = block.toString("latin1", 0, 6) === EXIF_HEADER ? block.subarray(6) : block;
  const numbers = Object.values(TAGS);
  try {
    const raw: Record<string, unknown> | undefined = await exifr.parse(tiff, {
      tiff: true,
      ifd0: { pick: [TAGS.DateTime] },
      exif: { pick: numbers.filter((tag) => tag !== TAGS.DateTime) },
      gps: false,
      interop: false,
      ifd1: false,
      translateKeys: false,
      translateValues: false,
      reviveValues: false,
      mergeOutput: true,
    } as never);
    const tags: Record<string, string> = {};
    for (const [name, number] of Object.entries(TAGS)) {
      const value = raw?.[number];
      if (typeof value === "string") tags[name] = value.replaceAll("\0", "");
    }
    return tags;
  } catch {
    // A damaged Exif block says nothing of when; the picture itself may be sound.
    return {};
  }
}
