// First bytes of a file in, its picture type out. Names and MIME types of uploads are never trusted.
import type { PhotoFacts } from "../../shared/events/events.ts";
import { PhotoError } from "./errors.ts";

export type PhotoType = PhotoFacts["type"];

interface Signature {
  readonly what: string;
  readonly type?: PhotoType;
  readonly is: (head: Uint8Array, text: string) => boolean;
}

/** Brands of the "ftyp" box that mean HEVC stills (ISO/IEC 23008-12 annex B). */
const HEVC_BRANDS = new Set(["heic", "heix", "heim", "heis", "hevc", "hevx"]);

const starts =
  (...bytes: number[]) =>
  (head: Uint8Array) =>
    bytes.every((byte, index) => head[index] === byte);

/** Brands of an ISO media file's first box, the major brand first; empty where there is none. */
function brands(text: string): string[] {
  if (text.slice(4, 8) !== "ftyp") return [];
  const length = [0, 1, 2, 3].reduce((sum, index) => sum * 256 + text.charCodeAt(index), 0);
  const list = [text.slice(8, 12)];
  for (let at = 16; at + 4 <= Math.min(length, text.length); at += 4) list.push(text.slice(at, at + 4));
  return list;
}

const SIGNATURES: readonly Signature[] = [
  { what: "JPEG", type: "image/jpeg", is: starts(0xff, 0xd8, 0xff) },
  { what: "PNG", type: "image/png", is: starts(0x89, 0x50, 0x4e, 0x47, 0x0d, 0x0a, 0x1a, 0x0a) },
  { what: "WebP", type: "image/webp", is: (_, text) => text.startsWith("RIFF") && text.slice(8, 12) === "WEBP" },
  { what: "HEIC", type: "image/heic", is: (_, text) => brands(text).some((brand) => HEVC_BRANDS.has(brand)) },
  { what: "AVIF", is: (_, text) => brands(text).some((brand) => brand === "avif" || brand === "avis") },
  { what: "a film", is: (_, text) => brands(text).length > 0 },
  { what: "GIF", is: (_, text) => text.startsWith("GIF8") },
  { what: "TIFF", is: (_, text) => text.startsWith("II*\0") || text.startsWith("MM\0*") },
  { what: "PDF", is: (_, text) => text.startsWith("%PDF") },
  { what: "SVG", is: (_, text) => /<svg[\s>]/i.test(text) },
  { what: "a web page", is: (_, text) => /<(!doctype html|html)[\s>]/i.test(text) },
  { what: "BMP", is: (_, text) => text.startsWith("BM") },
];

/**
 * Type of the picture by its first bytes.
 * @throws PhotoError `empty_photo` for no bytes, `wrong_type` for anything but JPEG, PNG, WebP and HEIC.
 */
export function sniffPhoto(bytes: Uint8Array): PhotoType {
  if (bytes.length === 0) throw new PhotoError("empty_photo", "Expected a picture, got an empty file.");
  const head = bytes.subarray(0, 256);
  const text = String.fromCharCode(...head);
  const found = SIGNATURES.find((signature) => signature.is(head, text));
  if (found?.type) return found.type;
  throw new PhotoError(
    "wrong_type",
    `Expected a JPEG, PNG, WebP or HEIC picture, got ${found ? found.what : "a file of another kind"}.`,
  );
}
