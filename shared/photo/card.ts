// Place, step and subject in, the text of a tag card's QR code out, and back. A payload of our own, version 1.
import { PLACE_KEYS, type Place, placeKey, placeSchema } from "../places/places.ts";
import { STEP_IDS, type StepId } from "../steps/steps.ts";

export interface Card {
  readonly place: Place;
  readonly step?: StepId;
  /** What the picture shows: the id of a proof of the spec sheet ("cap_marks"). */
  readonly subject?: string;
}

export type CardReading =
  | { readonly ok: true; readonly card: Card }
  | { readonly ok: false; readonly code: "not_a_tag_card" | "unknown_card_version" | "damaged_card"; readonly say: string };

/**
 * `TB1/place/step/subject/check`. Only characters of the QR alphanumeric mode (ISO/IEC 18004, table 5) are used, so a
 * card stays small and its squares large; any other character is written as % and two hex digits for each UTF-8 byte.
 */
const PREFIX = "TB";
const VERSION = "1";
const ALPHANUMERIC = "0123456789ABCDEFGHIJKLMNOPQRSTUVWXYZ $%*+-./:";

/** Check digits by ISO/IEC 7064 MOD 97-10 over base 45: finds every wrong character and every swap of neighbours. */
function checkOf(text: string): string {
  let rest = 0;
  for (const char of text) rest = (rest * ALPHANUMERIC.length + ALPHANUMERIC.indexOf(char)) % 97;
  return String(rest).padStart(2, "0");
}

const UTF8 = new TextEncoder();

function escapeText(text: string): string {
  let out = "";
  for (const char of text) {
    if (/[a-z0-9]/.test(char)) out += char.toUpperCase();
    else if (char === "_") out += "-";
    else for (const byte of UTF8.encode(char)) out += `%${byte.toString(16).toUpperCase().padStart(2, "0")}`;
  }
  return out;
}

function unescapeText(text: string): string | undefined {
  const plain = text.replace(/%([0-9A-F]{2})|([A-Z])|(-)/g, (_, hex, letter, dash) =>
    hex ? `%${hex}` : letter ? letter.toLowerCase() : dash ? "_" : "",
  );
  try {
    return decodeURIComponent(plain);
  } catch {
    return undefined;
  }
}

/** The text a tag card carries for `card`. */
export function cardText({ place, step, subject }: Card): string {
  const slots = PLACE_KEYS.filter((key) => place[key] !== undefined);
  const where = slots.map((key) => `${key.toUpperCase()}:${writeValue(place[key] ?? "")}`).join("+");
  const body = `${PREFIX}${VERSION}/${where}/${escapeText(step ?? "")}/${escapeText(subject ?? "")}/`;
  return body + checkOf(body);
}

/** A number is written bare; text that looks like one is escaped, so that each reads back as what it was. */
function writeValue(value: string | number): string {
  const text = escapeText(String(value));
  return typeof value === "string" && /^\d+$/.test(text) ? text.replace(/\d/g, "%3$&") : text;
}

function readValue(coded: string): string | number | undefined {
  return /^\d+$/.test(coded) ? Number(coded) : unescapeText(coded);
}

function readPlace(text: string): Place | undefined {
  const place: Record<string, string | number> = {};
  for (const pair of text === "" ? [] : text.split("+")) {
    const [name = "", coded = ""] = pair.split(":");
    const key = PLACE_KEYS.find((slot) => slot.toUpperCase() === name);
    const value = readValue(coded);
    if (!key || value === undefined) return undefined;
    place[key] = value;
  }
  const parsed = placeSchema.safeParse(place);
  return parsed.success ? parsed.data : undefined;
}

const damaged: CardReading = { ok: false, code: "damaged_card", say: "Card not read, say the place." };

/** What a QR code's text says; codes that are not our cards, of a later version or damaged are told apart. */
export function readCard(text: string): CardReading {
  const found = /^TB(\d+)\/([^/]*)\/([^/]*)\/([^/]*)\/(\d\d)$/.exec(text);
  if (!found) return { ok: false, code: "not_a_tag_card", say: "Not one of our cards." };
  const [, version, where = "", stepText = "", subjectText = "", check] = found;
  if (version !== VERSION) return { ok: false, code: "unknown_card_version", say: "Card of a newer version." };
  if (checkOf(text.slice(0, -2)) !== check) return damaged;
  const place = readPlace(where);
  const stepId = unescapeText(stepText);
  const step = STEP_IDS.find((id) => id === stepId);
  const subject = unescapeText(subjectText);
  if (!place || (stepText !== "" && !step) || subject === undefined) return damaged;
  return { ok: true, card: { place, ...(step ? { step } : {}), ...(subject ? { subject } : {}) } };
}

/** Whether two places name the same spot. */
export const samePlace = (one: Place, other: Place): boolean => placeKey(one) === placeKey(other);
