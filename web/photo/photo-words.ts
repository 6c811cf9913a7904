// The facts of a photo in plain words, each with the clock or measure it comes from.
import type { PhotoFacts } from "../../shared/events/events.ts";
import { PHOTO_FLOORS } from "../../shared/photo/doubts.ts";
import { placeLabel } from "../../shared/places/places.ts";

const SOURCES: Readonly<Record<PhotoFacts["taken"]["source"], string>> = {
  exif_original: "the camera's own clock",
  exif_digitized: "the camera's own clock (time of digitizing)",
  exif_modified: "the file's last change",
  shutter: "this device's clock at the shutter",
  server: "the shop's clock at receipt",
};

/** "2026-03-02 08:47:08, by the camera's own clock, zone unknown". */
export function takenWords({ taken }: PhotoFacts): string {
  const zone = taken.zoneKnown ? taken.at.slice(19).replace(/^\.\d+/, "") : "";
  const zoneWords = taken.zoneKnown ? (zone === "" || zone === "Z" ? " UTC" : ` ${zone}`) : "";
  return `${taken.at.slice(0, 10)} ${taken.at.slice(11, 19)}${zoneWords}, by ${SOURCES[taken.source]}${taken.zoneKnown ? "" : ", zone unknown"}`;
}

/** Clocks closer than this many seconds are called equal: sending a picture takes about as long. */
const CLOCKS_AGREE = 5;

/** What else can be seen of it, one line each. */
export function factLines(photo: PhotoFacts): string[] {
  const lines = [
    `${photo.width} by ${photo.height} px, ${(photo.bytes / 1e6).toFixed(1)} MB`,
    `focus figure ${photo.focus.toFixed(0)}${photo.focus < PHOTO_FLOORS.focus ? ", blurred" : ""}`,
  ];
  const ahead = photo.taken.deviceAhead ?? 0;
  if (Math.abs(ahead) >= CLOCKS_AGREE)
    lines.push(`sending device's clock ${Math.abs(ahead).toFixed(0)} s ${ahead > 0 ? "ahead of" : "behind"} the shop's`);
  if (photo.highlights > 0.02) lines.push(`${Math.round(photo.highlights * 100)} % clipped to white`);
  if (photo.shadows > 0.02) lines.push(`${Math.round(photo.shadows * 100)} % clipped to black`);
  if (photo.card)
    lines.push(
      `card in the frame: ${placeLabel(photo.card.place)}${photo.card.subject ? `, ${photo.card.subject.replaceAll("_", " ")}` : ""}`,
    );
  return lines;
}
