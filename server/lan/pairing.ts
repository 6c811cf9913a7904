// Pairing codes: made by the owner, good once and for minutes only, kept in memory as hashes.
import { ROLES, type Role } from "../access/access.ts";
import { ServiceError } from "../errors.ts";
import { hashSecret, newCode, plainCode } from "./secrets.ts";

export const CODE_MINUTES = 10;
/** Wrong codes taken from all addresses together in one minute; then nobody pairs until the minute is over. */
export const WRONG_A_MINUTE = 30;
const MINUTE_MS = 60_000;

interface Waiting {
  readonly role: Role;
  readonly until: number;
}

export class Pairing {
  private readonly waiting = new Map<string, Waiting>();
  private readonly now: () => number;
  private wrong = { since: 0, count: 0 };

  constructor(now: () => number = Date.now) {
    this.now = now;
  }

  /** A new code for a device that is to get `role`. */
  make(role: Role): { code: string; role: Role; until: number } {
    this.forgetOld();
    const code = newCode();
    const until = this.now() + CODE_MINUTES * MINUTE_MS;
    this.waiting.set(hashSecret(code), { role, until });
    return { code, role, until };
  }

  /**
   * Use a code up.
   * @returns the role it was made for
   * @throws ServiceError `bad_pairing_code` for a wrong, used or old one; `too_many_requests` after many wrong ones
   */
  redeem(typed: string): Role {
    this.forgetOld();
    if (this.now() - this.wrong.since > MINUTE_MS) this.wrong = { since: this.now(), count: 0 };
    if (this.wrong.count >= WRONG_A_MINUTE)
      throw new ServiceError("too_many_requests", "Expected fewer wrong pairing codes, got too many: wait a minute");
    const hash = hashSecret(plainCode(typed));
    const found = this.waiting.get(hash);
    this.waiting.delete(hash);
    if (found === undefined) {
      this.wrong.count += 1;
      throw new ServiceError(
        "bad_pairing_code",
        "Expected a pairing code that is new and unused, got another: make a new one on the shop's machine",
      );
    }
    return found.role;
  }

  private forgetOld(): void {
    for (const [hash, { until }] of this.waiting) if (until <= this.now()) this.waiting.delete(hash);
  }
}

export const isRole = (text: unknown): text is Role => ROLES.includes(text as Role);
