// SHA-256 as 64 hex digits. The browser's own where there is one; plain http pages have none and get the library's.
import { sha256 as plain } from "@noble/hashes/sha2.js";

/** Hash of `bytes` as lower case hex. */
export async function sha256Hex(bytes: Uint8Array<ArrayBuffer>): Promise<string> {
  const subtle = globalThis.crypto?.subtle as SubtleCrypto | undefined;
  const hash = subtle === undefined ? plain(bytes) : new Uint8Array(await subtle.digest("SHA-256", bytes));
  return [...hash].map((byte) => byte.toString(16).padStart(2, "0")).join("");
}
