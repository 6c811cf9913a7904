// Every way a request to the shop can fail, as one error with a stable code and a plain sentence.

/** Codes of our own beside the service's. */
export type FailureCode =
  /** No answer at all. */
  | "out_of_reach"
  /** No whole answer in time. */
  | "too_long"
  /** An answer that is not the service's. */
  | "strange_answer"
  /** Another shop than the one this device's entries are for. */
  | "another_shop"
  /** No room on this device. */
  | "device_full"
  | (string & {});

/**
 * Answers about the shop or the way to it, whatever was asked: no other parcel would fare better, and this one may later
 * (RFC 9110: 408 15.5.9, 502 to 504 15.6.3 to 15.6.5; RFC 6585: 429). Not paired is one: pairing mends it.
 */
const NOT_NOW: ReadonlySet<number> = new Set([0, 401, 403, 408, 425, 429, 502, 503, 504]);

export class ShopFailure extends Error {
  readonly code: FailureCode;
  readonly status: number;
  constructor(code: FailureCode, message: string, status: number) {
    super(message);
    this.name = "ShopFailure";
    this.code = code;
    this.status = status;
  }
  /** `shop`: all has to wait. `parcel`: the shop failed at this one, and may do better later. `refused`: it said no to this one. */
  get about(): "shop" | "parcel" | "refused" {
    if (this.code === "too_long") return "parcel";
    // What some other service at this address says of a parcel counts for nothing.
    if (NOT_NOW.has(this.status) || (this.code === "strange_answer" && this.status < 500)) return "shop";
    return this.status >= 500 ? "parcel" : "refused";
  }
}

/** The failure in any thrown thing. */
export function asFailure(error: unknown): ShopFailure {
  if (error instanceof ShopFailure) return error;
  return new ShopFailure("out_of_reach", error instanceof Error ? error.message : String(error), 0);
}
