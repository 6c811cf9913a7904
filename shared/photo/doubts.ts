// A photo, the photos before it and the step it proves in; what is doubtful about it out. Claims only what can be seen.
import type { EventData } from "../events/events.ts";
import { type Place, placeLabel } from "../places/places.ts";
import type { StepId } from "../steps/steps.ts";

export type PhotoTaken = EventData["photo.taken"];

export interface EarlierPhoto extends PhotoTaken {
  /** Id of its event. */
  readonly id: string;
}

export interface OpenStep {
  readonly id: StepId;
  /** When the step was opened, ISO 8601 with offset. */
  readonly openedAt: string;
}

export const PHOTO_DOUBT_CODES = [
  "same_photo",
  "near_twin",
  "older_than_step",
  "card_disagrees",
  "blurred",
  "glare",
  "too_dark",
] as const;
export type PhotoDoubtCode = (typeof PHOTO_DOUBT_CODES)[number];

export interface PhotoDoubt {
  readonly code: PhotoDoubtCode;
  /** To be said aloud, a short sentence. */
  readonly say: string;
  /** One sentence with the figures. */
  readonly why: string;
  /** The earlier photo it is about. */
  readonly with?: string;
}

/** Start values of ours, not from any standard; a shop may set its own. */
export interface PhotoFloors {
  /** Focus below this is called blurred. */
  readonly focus: number;
  /** Fingerprints that differ in at most so many of 64 bits are near-twins. */
  readonly twinBits: number;
  /** Shares of clipped pixels above which a picture is called glaring or too dark. */
  readonly highlights: number;
  readonly shadows: number;
}
export const PHOTO_FLOORS: PhotoFloors = { focus: 12, twinBits: 5, highlights: 0.35, shadows: 0.6 };

const NIBBLE_BITS = [0, 1, 1, 2, 1, 2, 2, 3, 1, 2, 2, 3, 2, 3, 3, 4] as const;

/** Bits in which two fingerprints of 16 hex digits differ, 0..64. */
export function fingerprintDistance(one: string, other: string): number {
  let bits = 0;
  for (let at = 0; at < 16; at += 1) {
    bits += NIBBLE_BITS[Number.parseInt(one.charAt(at), 16) ^ Number.parseInt(other.charAt(at), 16)] ?? 4;
  }
  return bits;
}

/** Zones reach 14 hours ahead of UTC and 12 behind: a local time alone is certain only to this. */
const ZONE_AHEAD = 14 * 3_600_000;

/** The latest moment a photo can have been taken, in ms; undefined where only the server's clock knows. */
function latestMoment({ at, source, zoneKnown }: PhotoTaken["photo"]["taken"]): number | undefined {
  if (source === "server") return undefined;
  // A local time without zone is latest where the clock was furthest behind UTC.
  return zoneKnown ? Date.parse(at) : Date.parse(`${at}Z`) + ZONE_AHEAD;
}

const name = (place: Place) => placeLabel(place) || "the engine";

/** Number of the cylinder a place belongs to: a rod's number is its cylinder's. */
const numberOf = ({ cylinder, rod }: Place) => cylinder ?? rod;

/** Whether two places are of different parts. A place that only says less is not different. */
export function differentPlaces(one: Place, other: Place): boolean {
  const [number, otherNumber] = [numberOf(one), numberOf(other)];
  if (number !== undefined && otherNumber !== undefined && number !== otherNumber) return true;
  // A main and a cylinder's part share no number.
  if (one.main !== undefined && otherNumber !== undefined && other.main === undefined) return true;
  if (other.main !== undefined && number !== undefined && one.main === undefined) return true;
  return (Object.keys(one) as (keyof Place)[]).some((slot) => other[slot] !== undefined && other[slot] !== one[slot]);
}

function twinDoubt(photo: PhotoTaken, earlier: readonly EarlierPhoto[], floors: PhotoFloors): PhotoDoubt | undefined {
  const same = earlier.find((other) => other.photo.sha256 === photo.photo.sha256);
  if (same) {
    const why = `The same file was kept before for ${name(same.place)}.`;
    return { code: "same_photo", say: `Same photo as ${name(same.place)}.`, why, with: same.id };
  }
  for (const other of earlier) {
    if (!differentPlaces(other.place, photo.place)) continue;
    const bits = fingerprintDistance(other.photo.fingerprint, photo.photo.fingerprint);
    if (bits > floors.twinBits) continue;
    const why = `Its fingerprint differs in ${bits} of 64 bits from the photo kept for ${name(other.place)}; ${floors.twinBits} or fewer are doubted.`;
    return { code: "near_twin", say: `Looks like the ${name(other.place)} photo.`, why, with: other.id };
  }
  return undefined;
}

function ageDoubt({ photo }: PhotoTaken, step: OpenStep | undefined): PhotoDoubt | undefined {
  const latest = latestMoment(photo.taken);
  if (!step || latest === undefined || latest >= Date.parse(step.openedAt)) return undefined;
  const zone = photo.taken.zoneKnown ? "" : ", zone unknown";
  const why = `Taken ${photo.taken.at} (${photo.taken.source}${zone}); the step was opened ${step.openedAt}.`;
  return { code: "older_than_step", say: "Photo is older than this step.", why };
}

function cardDoubt({ photo, place }: PhotoTaken): PhotoDoubt | undefined {
  if (!photo.card || !differentPlaces(photo.card.place, place)) return undefined;
  const why = `The card in the frame says ${name(photo.card.place)}, the photo was filed for ${name(place)}.`;
  return { code: "card_disagrees", say: `Card says ${name(photo.card.place)}. Which?`, why };
}

function lookDoubts({ photo }: PhotoTaken, floors: PhotoFloors): PhotoDoubt[] {
  const doubts: PhotoDoubt[] = [];
  const percent = (share: number) => `${Math.round(share * 100)} %`;
  if (photo.focus < floors.focus) {
    const why = `Focus figure ${photo.focus.toFixed(1)}, below ${floors.focus}.`;
    doubts.push({ code: "blurred", say: "Blurred, take it again?", why });
  }
  if (photo.highlights > floors.highlights) {
    const why = `${percent(photo.highlights)} of the picture is clipped to white, above ${percent(floors.highlights)}.`;
    doubts.push({ code: "glare", say: "Too much glare, take it again?", why });
  }
  if (photo.shadows > floors.shadows) {
    const why = `${percent(photo.shadows)} of the picture is clipped to black, above ${percent(floors.shadows)}.`;
    doubts.push({ code: "too_dark", say: "Too dark, take it again?", why });
  }
  return doubts;
}

/**
 * What is doubtful about a photo, gravest first; empty for a sound one. A doubt is said and shown, the photo is kept.
 * @param earlier the build's photos before it
 * @param step the step it proves in, with the moment it was opened
 */
export function photoDoubts(
  photo: PhotoTaken,
  earlier: readonly EarlierPhoto[],
  step?: OpenStep,
  floors: PhotoFloors = PHOTO_FLOORS,
): PhotoDoubt[] {
  const grave = [cardDoubt(photo), twinDoubt(photo, earlier, floors), ageDoubt(photo, step)];
  return [...grave.filter((doubt) => doubt !== undefined), ...lookDoubts(photo, floors)];
}
