// Every way a request to the shop can fail, as one error with a stable code and a plain sentence.

/** Codes of our own beside the service's: no answer at all, and an answer that is not the service's. */
export type FailureCode = "out_of_reach" | "strange_answer" | (string & {});

/** Statuses after which the same request may well succeed later. Not paired is one: pairing mends it. */
const LATER: ReadonlySet<number> = new Set([0, 401, 403, 408, 425, 429, 500, 502, 503, 504, 507]);

export class ShopFailure extends Error {
  readonly code: FailureCode;
  readonly status: number;
  constructor(code: FailureCode, message: string, status: number) {
    super(message);
    this.name = "ShopFailure";
    this.code = code;
    this.status = status;
  }
  /** Whether to try again later rather than to give up. */
  get passes(): boolean {
    return LATER.has(this.status);
  }
}

/** The failure in any thrown thing. */
export function asFailure(error: unknown): ShopFailure {
  if (error instanceof ShopFailure) return error;
  return new ShopFailure("out_of_reach", error instanceof Error ? error.message : String(error), 0);
}
