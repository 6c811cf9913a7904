// Secrets that open the door: drawn at random, kept only as hashes.
import { createHash, randomBytes } from "node:crypto";

/** 256 random bits as text for a cookie or an address. */
export const newToken = () => randomBytes(32).toString("base64url");
export const TOKEN = /^[A-Za-z0-9_-]{43}$/;

/** A token is random enough that one plain hash keeps it. */
export const hashSecret = (secret: string) => createHash("sha256").update(secret).digest("hex");

/** Letters and digits that cannot be taken for each other when read off a screen (Crockford's base 32). */
const ALPHABET = "0123456789ABCDEFGHJKMNPQRSTVWXYZ";

/** A code to be read from a screen: 10 characters, 50 random bits. */
export function newCode(): string {
  return [...randomBytes(10)].map((byte) => ALPHABET[byte & 31]).join("");
}

/** A code as typed: case, spaces, hyphens and the letters that look like digits do not matter. */
export function plainCode(typed: string): string {
  return typed.toUpperCase().replace(/[\s-]/g, "").replaceAll("O", "0").replace(/[IL]/g, "1");
}
