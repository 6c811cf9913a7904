// The demo build's pictures, in the order they are handed in: file, what it is filed as, and when its camera says it was taken.
import type { Place } from "../shared/places/places.ts";
import type { StepId } from "../shared/steps/steps.ts";
import { DAY_BOOK, DEMO_START } from "./scenario.ts";

export interface DemoPhoto {
  /** File name under demo-data/photos/. */
  readonly file: string;
  /** The day book's `photos` line it belongs to. */
  readonly group: string;
  readonly place: Place;
  readonly step: StepId;
  readonly proof?: string;
  /** What the machinist says beside it. */
  readonly statement?: string;
  /** The camera's time, ISO 8601 with offset: what the file's Exif block says. */
  readonly taken: string;
}

type Row = Omit<DemoPhoto, "taken" | "group"> & {
  readonly group?: string;
  /** This picture's bytes were copied from another one, Exif time and all. */
  readonly copyOf?: string;
};

const each = (numbers: readonly number[], row: (n: number) => Row): Row[] => numbers.map(row);

/**
 * What is missing is missing on purpose: the cotters of rod 3 and the blue print of main 2 were never photographed, and the
 * gauge strip of rod 4 is the picture of rod 1 saved again.
 */
const ROWS: readonly Row[] = [
  ...each([1, 2, 3, 4], (rod) => ({
    file: `cap-marks-${rod}.jpg`,
    place: { rod },
    step: "teardown",
    proof: "cap_marks",
    statement: "marks match, numbers to the cam side",
  })),
  { file: "timing-marks.jpg", place: {}, step: "teardown", proof: "timing_marks", statement: "dot between two, as found" },
  { file: "score-3.jpg", place: { cylinder: 3 }, step: "bores", statement: "one deep score, thrust side" },
  { file: "blue-print-1.jpg", place: { main: 1 }, step: "main_bearings", proof: "blue_print" },
  { file: "blue-print-3.jpg", place: { main: 3 }, step: "main_bearings", proof: "blue_print" },
  ...each([1, 2, 3, 4], (cylinder) => ({
    file: `bore-hatch-${cylinder}.jpg`,
    place: { cylinder },
    step: "finish_bores",
    proof: "bore_hatch",
  })),
  ...each([2, 3], (cylinder) => ({ file: `ring-gap-${cylinder}.jpg`, place: { cylinder, ring: "top" }, step: "rings" })),
  ...each([1, 2, 3, 4], (cylinder) => ({
    file: `front-mark-${cylinder}.jpg`,
    place: { cylinder },
    step: "piston_assembly",
    proof: "front_mark",
    statement: "arrow to the front",
  })),
  { file: "gauge-strip-1.jpg", place: { rod: 1 }, step: "rod_fit", proof: "gauge_strip" },
  { file: "gauge-strip-2-blurred.jpg", place: { rod: 2 }, step: "rod_fit", proof: "gauge_strip" },
  { file: "gauge-strip-2.jpg", place: { rod: 2 }, step: "rod_fit", proof: "gauge_strip" },
  { file: "gauge-strip-3.jpg", place: { rod: 3 }, step: "rod_fit", proof: "gauge_strip" },
  { file: "gauge-strip-4.jpg", place: { rod: 4 }, step: "rod_fit", proof: "gauge_strip", copyOf: "gauge-strip-1.jpg" },
  ...each([1, 2, 4], (rod) => ({
    file: `cotter-${rod}.jpg`,
    place: { rod },
    step: "final_torque",
    proof: "cotter",
    statement: "both cotters in, legs bent",
  })),
  ...each([1, 2, 3], (rod) => ({
    file: `dipper-${rod}.jpg`,
    place: { rod },
    step: "splash",
    proof: "dipper",
    statement: "dipper to the front, mouth leading",
  })),
  { file: "dipper-4-trailing.jpg", place: { rod: 4 }, step: "splash", statement: "mouth trailing, cap to be turned" },
  { file: "dipper-4.jpg", place: { rod: 4 }, step: "splash", proof: "dipper", statement: "cap turned, mouth leading" },
];

/** Minutes after the start at which each `photos` line of the day book stands. */
function groupMinutes(): Map<string, number> {
  const minutes = new Map<string, number>();
  let now = 0;
  for (const line of DAY_BOOK) {
    now += line.wait ?? 1;
    if ("photos" in line) minutes.set(line.photos, now);
  }
  return minutes;
}

const two = (value: number) => String(value).padStart(2, "0");

/** A moment as ISO text in the shop's zone: the offset that the demo's start carries. */
function inShopZone(moment: number): string {
  const offset = DEMO_START.slice(-6);
  const minutes = (offset.startsWith("-") ? -1 : 1) * (Number(offset.slice(1, 3)) * 60 + Number(offset.slice(4)));
  const local = new Date(moment + minutes * 60_000);
  const day = `${local.getUTCFullYear()}-${two(local.getUTCMonth() + 1)}-${two(local.getUTCDate())}`;
  return `${day}T${two(local.getUTCHours())}:${two(local.getUTCMinutes())}:${two(local.getUTCSeconds())}${offset}`;
}

function dated(rows: readonly Row[]): DemoPhoto[] {
  const start = Date.parse(DEMO_START);
  const minutes = groupMinutes();
  const photos: DemoPhoto[] = [];
  for (const { copyOf, ...row } of rows) {
    const group = row.group ?? row.step;
    const inGroup = rows.filter((other) => (other.group ?? other.step) === group);
    // All within the minute before the day book's line: after the step was opened, in the order they were taken.
    const seconds = -52 + Math.floor((48 * inGroup.findIndex((other) => other.file === row.file)) / inGroup.length);
    const own = inShopZone(start + (minutes.get(group) ?? 0) * 60_000 + seconds * 1000);
    const taken = photos.find((photo) => photo.file === copyOf)?.taken ?? own;
    photos.push({ ...row, group, taken });
  }
  return photos;
}

export const DEMO_PHOTOS: readonly DemoPhoto[] = dated(ROWS);
