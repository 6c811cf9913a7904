// One byte range of a file (RFC 9110 section 14): players ask for sound in pieces.
import { expected, ServiceError } from "../errors.ts";

/**
 * First and last byte asked for, or undefined when the whole file is to be sent (no range, several, or another unit).
 * @throws ServiceError `bad_range` when the range lies outside the file
 */
export function parseRange(header: string | undefined, size: number): { start: number; end: number } | undefined {
  const match = /^bytes=(\d{0,15})-(\d{0,15})$/.exec(header ?? "");
  if (match === null || (match[1] === "" && match[2] === "")) return undefined;
  const [, from = "", to = ""] = match;
  // "-500" means the last 500 bytes.
  const start = from === "" ? Math.max(0, size - Number(to)) : Number(from);
  const end = from === "" || to === "" ? size - 1 : Math.min(Number(to), size - 1);
  if (start > end || start >= size)
    throw new ServiceError("bad_range", expected(`bytes of 0 to ${size - 1}`, "Range", header ?? ""));
  return { start, end };
}
