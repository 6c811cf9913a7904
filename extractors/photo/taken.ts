// Exif tags as raw strings in, the moment a photo was taken out, with the clock that said so.
import type { PhotoFacts } from "../../shared/events/events.ts";

export type PhotoTime = PhotoFacts["taken"];

/** Exif tags that tell a time, by their Exif 2.32 names (CIPA DC-008-2019, table 8 group F). */
export interface TimeTags {
  readonly DateTimeOriginal?: string;
  readonly DateTimeDigitized?: string;
  readonly DateTime?: string;
  readonly OffsetTimeOriginal?: string;
  readonly OffsetTimeDigitized?: string;
  readonly OffsetTime?: string;
  readonly SubSecTimeOriginal?: string;
  readonly SubSecTimeDigitized?: string;
  readonly SubSecTime?: string;
}

/** In the order of trust: the shutter's moment, then digitizing, then the last change. Each has its own offset tag. */
const TIME_TAGS = [
  ["exif_original", "DateTimeOriginal", "OffsetTimeOriginal", "SubSecTimeOriginal"],
  ["exif_digitized", "DateTimeDigitized", "OffsetTimeDigitized", "SubSecTimeDigitized"],
  ["exif_modified", "DateTime", "OffsetTime", "SubSecTime"],
] as const satisfies readonly (readonly [PhotoTime["source"], keyof TimeTags, keyof TimeTags, keyof TimeTags])[];

/** Exif writes "2026:05:03 10:11:12"; some phones write dashes. Unknown digits are blanks and do not match. */
const MOMENT = /^(\d{4})[:-](\d{2})[:-](\d{2})[ T](\d{2}):(\d{2}):(\d{2})$/;
const OFFSET = /^(?:Z|[+-](?:0\d|1[0-4]):[0-5]\d)$/;
const DAY = 86_400_000;

/** Local time "2026-05-03T10:11:12" of an Exif time, or undefined where the calendar has no such moment. */
function localTime(text: string | undefined): string | undefined {
  const found = MOMENT.exec((text ?? "").trim());
  if (!found) return undefined;
  const [, year, month, day, hour, minute, second] = found;
  const iso = `${year}-${month}-${day}T${hour}:${minute}:${second}`;
  const date = new Date(`${iso}Z`);
  // Date rolls 31 February over into March: a real moment reads back as it was written.
  return !Number.isNaN(date.getTime()) && date.toISOString().startsWith(iso) ? iso : undefined;
}

/** A first digital photograph cannot be older; a clock reset to its factory year is nonsense too. */
const EARLIEST = Date.UTC(1995, 0, 1);

/**
 * The first Exif time that makes sense, or null. Nonsense is a month 13, a time before 1995, and a time more
 * than a day after `now` (a local time without zone may run ahead of the server by up to 14 hours).
 * @param now the server's moment of receipt, ISO 8601
 */
export function takenFromTags(tags: TimeTags, now: string): PhotoTime | null {
  for (const [source, momentTag, offsetTag, subSecTag] of TIME_TAGS) {
    const local = localTime(tags[momentTag]);
    if (!local) continue;
    const offset = (tags[offsetTag] ?? "").trim();
    const zoneKnown = OFFSET.test(offset);
    const moment = Date.parse(`${local}${zoneKnown ? offset : "Z"}`);
    if (moment < EARLIEST || moment > Date.parse(now) + DAY) continue;
    const subSec = (tags[subSecTag] ?? "").trim();
    const fraction = /^\d{1,9}$/.test(subSec) ? `.${subSec}` : "";
    return { at: `${local}${fraction}${zoneKnown ? offset : ""}`, source, zoneKnown };
  }
  return null;
}

export interface Clocks {
  /** The live camera's or phone's clock when its shutter was pressed, ISO 8601 with offset. */
  readonly shutter?: string | undefined;
  /** The device's clock when it sent the picture. */
  readonly sent?: string | undefined;
  /** The server's clock at receipt, ISO 8601. */
  readonly receivedAt: string;
}

/** Seconds the device's clock is ahead of the server's, to a tenth; the way through the shop's network is part of it. */
function aheadOf({ sent, receivedAt }: Clocks): { deviceAhead?: number } {
  const ahead = sent === undefined ? Number.NaN : (Date.parse(sent) - Date.parse(receivedAt)) / 1000;
  return Number.isFinite(ahead) ? { deviceAhead: Math.round(ahead * 10) / 10 } : {};
}

/** When a photo was taken: Exif first, then the shutter's clock, then only the server's. */
export function takenAt(tags: TimeTags, clocks: Clocks): PhotoTime {
  return { ...momentOf(tags, clocks), ...aheadOf(clocks) };
}

function momentOf(tags: TimeTags, clocks: Clocks): PhotoTime {
  const exif = takenFromTags(tags, clocks.receivedAt);
  if (exif) return exif;
  if (clocks.shutter) return { at: clocks.shutter, source: "shutter", zoneKnown: /(?:Z|[+-]\d\d:\d\d)$/.test(clocks.shutter) };
  return { at: clocks.receivedAt, source: "server", zoneKnown: true };
}
