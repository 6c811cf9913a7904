// Who may come in: paired devices and customer links, kept in the shop's database, cut off at once.
import { EventEmitter } from "node:events";
import type { Kysely } from "kysely";
import { v7 } from "uuid";
import type { Role } from "../access/access.ts";
import { expected, ServiceError } from "../errors.ts";
import type { Tables } from "../store/tables.ts";
import { hashSecret, newToken, TOKEN } from "./secrets.ts";

/** `secure` came over HTTPS, `plain` over http: a token of one is worth nothing at the other. */
export type Door = "secure" | "plain";

export interface Device {
  readonly id: string;
  readonly name: string;
  readonly role: Role;
  readonly door: Door;
  readonly pairedAt: string;
  readonly lastSeenAt: string | undefined;
}

export interface CustomerLink {
  readonly id: string;
  readonly build: string;
  readonly madeAt: string;
  readonly expiresAt: string;
}

const SEEN_EVERY_MS = 60_000;
const DAY_MS = 86_400_000;

export class DoorList {
  private readonly db: Kysely<Tables>;
  private readonly now: () => number;
  private readonly cuts = new EventEmitter().setMaxListeners(0);

  constructor(db: Kysely<Tables>, now: () => number = Date.now) {
    this.db = db;
    this.now = now;
  }

  private iso(ms = this.now()): string {
    return new Date(ms).toISOString();
  }

  /** Let a device in. The token is given out here once and never again. */
  async pair(name: string, role: Role, door: Door): Promise<{ device: Device; token: string }> {
    const token = newToken();
    const id = v7();
    const pairedAt = this.iso();
    await this.db
      .insertInto("device")
      .values({ id, name, role, door, token_hash: hashSecret(token), paired_at: pairedAt, last_seen_at: null, revoked_at: null })
      .execute();
    return { device: { id, name, role, door, pairedAt, lastSeenAt: undefined }, token };
  }

  /** The device that holds this token at this door, unless it is cut off. */
  async deviceOf(token: string | undefined, door: Door): Promise<Device | undefined> {
    if (token === undefined || !TOKEN.test(token)) return undefined;
    const row = await this.db
      .selectFrom("device")
      .selectAll()
      .where("token_hash", "=", hashSecret(token))
      .where("door", "=", door)
      .where("revoked_at", "is", null)
      .executeTakeFirst();
    if (row === undefined) return undefined;
    if (row.last_seen_at === null || this.now() - Date.parse(row.last_seen_at) > SEEN_EVERY_MS)
      await this.db.updateTable("device").set({ last_seen_at: this.iso() }).where("id", "=", row.id).execute();
    return toDevice(row);
  }

  /** Devices that may come in, newest first. */
  async devices(): Promise<Device[]> {
    const rows = await this.db
      .selectFrom("device")
      .selectAll()
      .where("revoked_at", "is", null)
      .orderBy("paired_at", "desc")
      .execute();
    return rows.map(toDevice);
  }

  /** @throws ServiceError `unknown_device` */
  async rename(id: string, name: string): Promise<void> {
    const { numUpdatedRows } = await this.db
      .updateTable("device")
      .set({ name })
      .where("id", "=", id)
      .where("revoked_at", "is", null)
      .executeTakeFirst();
    if (numUpdatedRows === 0n) throw new ServiceError("unknown_device", expected("a paired device", "the name", "none"));
  }

  /** Cut a device off: its next request is refused and what it is watching ends. @throws ServiceError `unknown_device` */
  async cutOff(id: string): Promise<void> {
    const { numUpdatedRows } = await this.db
      .updateTable("device")
      .set({ revoked_at: this.iso() })
      .where("id", "=", id)
      .where("revoked_at", "is", null)
      .executeTakeFirst();
    if (numUpdatedRows === 0n)
      throw new ServiceError("unknown_device", expected("a paired device", "the one to cut off", "none"));
    this.cuts.emit(id);
  }

  /** Call `listener` when the device is cut off; the function returned stops it. */
  onCutOff(id: string, listener: () => void): () => void {
    this.cuts.once(id, listener);
    return () => this.cuts.off(id, listener);
  }

  /** A link to one build's record, for so many days. The token is given out here once and never again. */
  async makeLink(build: string, days: number): Promise<{ link: CustomerLink; token: string }> {
    const token = newToken();
    const link = { id: v7(), build, madeAt: this.iso(), expiresAt: this.iso(this.now() + days * DAY_MS) };
    await this.db
      .insertInto("link")
      .values({
        id: link.id,
        build,
        token_hash: hashSecret(token),
        made_at: link.madeAt,
        expires_at: link.expiresAt,
        revoked_at: null,
      })
      .execute();
    return { link, token };
  }

  /** The link of this token, unless it is over or revoked. @throws ServiceError `unknown_link` */
  async linkOf(token: string): Promise<CustomerLink> {
    const row = TOKEN.test(token)
      ? await this.db
          .selectFrom("link")
          .selectAll()
          .where("token_hash", "=", hashSecret(token))
          .where("revoked_at", "is", null)
          .where("expires_at", ">", this.iso())
          .executeTakeFirst()
      : undefined;
    if (row === undefined)
      throw new ServiceError(
        "unknown_link",
        expected("a link that still holds", "this record", "one that is over, revoked or unknown"),
      );
    return { id: row.id, build: row.build, madeAt: row.made_at, expiresAt: row.expires_at };
  }

  /** Links that still hold, newest first. */
  async links(): Promise<CustomerLink[]> {
    const rows = await this.db
      .selectFrom("link")
      .selectAll()
      .where("revoked_at", "is", null)
      .where("expires_at", ">", this.iso())
      .orderBy("made_at", "desc")
      .execute();
    return rows.map((row) => ({ id: row.id, build: row.build, madeAt: row.made_at, expiresAt: row.expires_at }));
  }

  /** @throws ServiceError `unknown_link` */
  async revokeLink(id: string): Promise<void> {
    const { numUpdatedRows } = await this.db
      .updateTable("link")
      .set({ revoked_at: this.iso() })
      .where("id", "=", id)
      .where("revoked_at", "is", null)
      .executeTakeFirst();
    if (numUpdatedRows === 0n)
      throw new ServiceError("unknown_link", expected("a link that still holds", "the one to revoke", "none"));
  }
}

function toDevice(row: Tables["device"]): Device {
  return {
    id: row.id,
    name: row.name,
    role: row.role,
    door: row.door,
    pairedAt: row.paired_at,
    lastSeenAt: row.last_seen_at ?? undefined,
  };
}
