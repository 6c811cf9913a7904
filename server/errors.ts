// The one error the service throws on purpose: a stable code, its status, one plain sentence.
import { ERROR_STATUS, type ErrorCode } from "../shared/api/errors.ts";

/** A refusal outside of requests: one plain sentence for whoever typed the command. */
export class PlainError extends Error {
  override readonly name: string = "PlainError";
}

export class ServiceError extends Error {
  readonly code: ErrorCode;
  readonly statusCode: number;
  constructor(code: ErrorCode, message: string) {
    super(message);
    this.name = "ServiceError";
    this.code = code;
    this.statusCode = ERROR_STATUS[code];
  }
}

/** The sentence every refusal is made of. */
export function expected(what: string, where: string, got: string): string {
  return `Expected ${what} for ${where}, got ${got}`;
}

/** A value as a refusal may quote it: short, and never its whole text. */
export function brief(value: unknown): string {
  if (value === undefined) return "nothing";
  if (value === null) return "null";
  if (Array.isArray(value)) return `a list of ${value.length}`;
  if (typeof value === "object") return "an object";
  const text = typeof value === "string" ? JSON.stringify(value) : String(value);
  return text.length > 40 ? `${text.slice(0, 40)}…` : text;
}
