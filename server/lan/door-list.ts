// Who may come in: paired devices and customer links, kept in the shop's database, cut off at once.
import { EventEmitter } from "node:events";
import type { Kysely } from "kysely";
import { v7 } from "uuid";
import { loopbackName, type Role, SHOP } from "../access/access.ts";
import { expected, ServiceError } from "../errors.ts";
import { storageRefusal } from "../store/storage.ts";
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
  /** `plain` opens at both doors, `secure` only on a device that trusts the shop's certificate. */
  readonly door: Door;
  readonly madeAt: string;
  readonly expiresAt: string;
}

const SEEN_EVERY_MS = 60_000;
/** What the shop's own machine is called in its book. */
const OWN_NAMES: ReadonlySet<string> = new Set([SHOP, loopbackName]);
const DAY_MS = 86_400_000;

export class DoorList {
  private readonly db: Kysely<Tables>;
  private readonly now: () => number;
  private readonly makeRoom: () => Promise<void>;
  private readonly cuts = new EventEmitter().setMaxListeners(0);
  /** Cut off since this process began: what was let in before is asked about again without a look into the database. */
  private readonly out = new Set<string>();
  private readonly seen = new Map<string, number>();

  /** @param makeRoom gives up room on the disk that is kept for a cut-off */
  constructor(db: Kysely<Tables>, now: () => number = Date.now, makeRoom: () => Promise<void> = async () => {}) {
    this.db = db;
    this.now = now;
    this.makeRoom = makeRoom;
  }

  private iso(ms = this.now()): string {
    return new Date(ms).toISOString();
  }

  /**
   * Let a device in. The token is given out here once and never again.
   * @param before the token of an earlier pairing: a device that still holds one, cut off or not, stays the same device, so
   * that what it has not sent yet goes on under the name it was logged with; its old token opens nothing any more
   * @returns the device as it is listed: a name that another one has gets a number
   */
  async pair(name: string, role: Role, door: Door, before?: string): Promise<{ device: Device; token: string }> {
    const token = newToken();
    const known = await this.rowOf(before, door).executeTakeFirst();
    const id = known?.id ?? v7();
    const row = {
      name: await this.freeName(name, id),
      role,
      door,
      token_hash: hashSecret(token),
      paired_at: this.iso(),
      last_seen_at: null,
      revoked_at: null,
    };
    await this.db
      .insertInto("device")
      .values({ id, ...row })
      .onConflict((on) => on.column("id").doUpdateSet(row))
      .execute();
    // What was opened with the token before ends; the new one is not among those cut off.
    this.cuts.emit(id);
    this.out.delete(id);
    return { device: toDevice({ id, ...row }), token };
  }

  /** The name itself, or with the first number that makes it one no other device in here has. */
  private async freeName(name: string, id: string): Promise<string> {
    for (let n = 1; ; n += 1) {
      const tried = n === 1 ? name : `${name} ${n}`;
      if (!(await this.isTaken(tried, id))) return tried;
    }
  }

  private async isTaken(name: string, id: string): Promise<boolean> {
    const same = name.toLowerCase();
    const others = await this.devices();
    return OWN_NAMES.has(same) || others.some((device) => device.id !== id && device.name.toLowerCase() === same);
  }

  private rowOf(token: string | undefined, door: Door) {
    const hash = token !== undefined && TOKEN.test(token) ? hashSecret(token) : "";
    return this.db.selectFrom("device").selectAll().where("token_hash", "=", hash).where("door", "=", door);
  }

  /** The device that holds this token at this door, unless it is cut off. */
  async deviceOf(token: string | undefined, door: Door): Promise<Device | undefined> {
    const row = await this.rowOf(token, door).where("revoked_at", "is", null).executeTakeFirst();
    if (row === undefined || !this.isIn(row.id)) return undefined;
    await this.see(row.id);
    return toDevice(row);
  }

  /** When a device was last here is worth a write now and then, and no refusal where there is no room to write. */
  private async see(id: string): Promise<void> {
    if (this.now() - (this.seen.get(id) ?? 0) < SEEN_EVERY_MS) return;
    this.seen.set(id, this.now());
    const write = this.db.updateTable("device").set({ last_seen_at: this.iso() }).where("id", "=", id);
    await write.execute().catch(() => undefined);
  }

  /** Whether a device that was let in has not been cut off since. */
  isIn(id: string): boolean {
    return !this.out.has(id);
  }

  /** Whether any device was ever paired over HTTPS: such a device trusts the shop's authority. */
  async everTrusted(): Promise<boolean> {
    const row = await this.db.selectFrom("device").select("id").where("door", "=", "secure").limit(1).executeTakeFirst();
    return row !== undefined;
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

  /** @throws ServiceError `unknown_device`; `name_taken` for another device's name */
  async rename(id: string, name: string): Promise<void> {
    if (await this.isTaken(name, id))
      throw new ServiceError("name_taken", expected("a name that no other device has", "the name", "one that is taken"));
    const { numUpdatedRows } = await this.db
      .updateTable("device")
      .set({ name })
      .where("id", "=", id)
      .where("revoked_at", "is", null)
      .executeTakeFirst();
    if (numUpdatedRows === 0n) throw new ServiceError("unknown_device", expected("a paired device", "the name", "none"));
  }

  /**
   * Cut a device off: its next request is refused, and what it is sending or watching ends. It is out at once, also where the
   * disk has no room to keep that.
   * @throws ServiceError `unknown_device`
   */
  async cutOff(id: string): Promise<void> {
    if (!(await this.revoke("device", id)))
      throw new ServiceError("unknown_device", expected("a paired device", "the one to cut off", "none"));
  }

  /** Out at once, then written: on a full disk into the room that is kept for it. Gives whether anybody was there to cut off. */
  private async revoke(table: "device" | "link", id: string): Promise<boolean> {
    this.out.add(id);
    this.cuts.emit(id);
    const query = this.db.updateTable(table).set({ revoked_at: this.iso() }).where("id", "=", id).where("revoked_at", "is", null);
    const { numUpdatedRows } = await query.executeTakeFirst().catch(async (error: unknown) => {
      if (storageRefusal(error)?.code !== "out_of_space") throw error;
      await this.makeRoom();
      return await query.executeTakeFirst();
    });
    return numUpdatedRows > 0n;
  }

  /** Call `listener` when the device is cut off or the link revoked; the function returned stops it. */
  onCutOff(id: string, listener: () => void): () => void {
    this.cuts.once(id, listener);
    return () => this.cuts.off(id, listener);
  }

  /** A link to one build's record, for so many days. The token is given out here once and never again. */
  async makeLink(build: string, days: number, door: Door): Promise<{ link: CustomerLink; token: string }> {
    const token = newToken();
    const link = { id: v7(), build, door, madeAt: this.iso(), expiresAt: this.iso(this.now() + days * DAY_MS) };
    await this.db
      .insertInto("link")
      .values({
        id: link.id,
        build,
        door,
        token_hash: hashSecret(token),
        made_at: link.madeAt,
        expires_at: link.expiresAt,
        revoked_at: null,
      })
      .execute();
    return { link, token };
  }

  /** The link of this token at this door, unless it is over or revoked. @throws ServiceError `unknown_link` */
  async linkOf(token: string, door: Door): Promise<CustomerLink> {
    const row = TOKEN.test(token)
      ? await this.db
          .selectFrom("link")
          .selectAll()
          .where("token_hash", "=", hashSecret(token))
          .where("door", "in", door === "secure" ? ["secure", "plain"] : ["plain"])
          .where("revoked_at", "is", null)
          .where("expires_at", ">", this.iso())
          .executeTakeFirst()
      : undefined;
    if (row === undefined || !this.isIn(row.id))
      throw new ServiceError(
        "unknown_link",
        expected("a link that still holds", "this record", "one that is over, revoked or unknown"),
      );
    return toLink(row);
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
    return rows.map(toLink);
  }

  /** Revoke a link: what it is being sent ends. @throws ServiceError `unknown_link` */
  async revokeLink(id: string): Promise<void> {
    if (!(await this.revoke("link", id)))
      throw new ServiceError("unknown_link", expected("a link that still holds", "the one to revoke", "none"));
  }
}

function toLink(row: Tables["link"]): CustomerLink {
  return { id: row.id, build: row.build, door: row.door, madeAt: row.made_at, expiresAt: row.expires_at };
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
