// Pairing codes: made by the owner, good once and for minutes only. Codes and the tries at them are kept in the database, the
// codes as hashes, so that a restart neither brings a used code back nor gives a guesser a new start.
import type { Kysely } from "kysely";
import { ROLES, type Role } from "../access/access.ts";
import { ServiceError } from "../errors.ts";
import type { Tables } from "../store/tables.ts";
import { hashSecret, newCode, plainCode } from "./secrets.ts";

export const CODE_MINUTES = 10;
/**
 * Tries from one address in one minute. There is no limit for all addresses together: whoever has several could shut the door
 * for everybody with it, and a code of 50 bits is not guessed in ten minutes by a thousand tries a second either.
 */
export const TRIES_A_MINUTE = 10;
/** Addresses remembered: the newest ones. */
const MOST_ADDRESSES = 1000;
const MINUTE_MS = 60_000;

export class Pairing {
  private readonly db: Kysely<Tables>;
  private readonly now: () => number;

  constructor(db: Kysely<Tables>, now: () => number = Date.now) {
    this.db = db;
    this.now = now;
  }

  private iso(ago = 0): string {
    return new Date(this.now() - ago).toISOString();
  }

  /** A new code for a device that is to get `role`. */
  async make(role: Role): Promise<{ code: string; role: Role; until: string }> {
    const code = newCode();
    const until = this.iso(-CODE_MINUTES * MINUTE_MS);
    await this.db.deleteFrom("pairing_code").where("until", "<=", this.iso()).execute();
    await this.db
      .insertInto("pairing_code")
      .values({ hash: hashSecret(code), role, until })
      .execute();
    return { code, role, until };
  }

  /**
   * Use a code up.
   * @param address whence it is tried
   * @returns the role it was made for
   * @throws ServiceError `bad_pairing_code` for a wrong, used or old one; `too_many_requests` after many tries from there
   */
  async redeem(typed: string, address: string): Promise<Role> {
    if ((await this.countTry(address)) > TRIES_A_MINUTE)
      throw new ServiceError(
        "too_many_requests",
        "Expected fewer pairing codes tried from one address, got too many: wait a minute",
      );
    // Taken out and looked at in one step: of two devices that give the same code one gets it.
    const found = await this.db
      .deleteFrom("pairing_code")
      .where("hash", "=", hashSecret(plainCode(typed)))
      .returning(["role", "until"])
      .executeTakeFirst();
    if (found === undefined || found.until <= this.iso())
      throw new ServiceError(
        "bad_pairing_code",
        "Expected a pairing code that is new and unused, got another: make a new one on the shop's machine",
      );
    await this.db.deleteFrom("pairing_try").where("address", "=", address).execute();
    return found.role;
  }

  /** How many tries came from this address in its minute, this one among them; counted before the code is looked at. */
  private async countTry(address: string): Promise<number> {
    await this.db.deleteFrom("pairing_try").where("since", "<=", this.iso(MINUTE_MS)).execute();
    const { tries } = await this.db
      .insertInto("pairing_try")
      .values({ address, since: this.iso(), tries: 1 })
      .onConflict((on) => on.column("address").doUpdateSet((row) => ({ tries: row("pairing_try.tries", "+", 1) })))
      .returning("tries")
      .executeTakeFirstOrThrow();
    const newest = this.db.selectFrom("pairing_try").select("address").orderBy("since", "desc").limit(MOST_ADDRESSES);
    if (tries === 1) await this.db.deleteFrom("pairing_try").where("address", "not in", newest).execute();
    return tries;
  }
}

export const isRole = (text: unknown): text is Role => ROLES.includes(text as Role);
