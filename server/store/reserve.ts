// A little room kept on the disk for what must be written even when it is full: that somebody is not let in any more.
import { rm, stat } from "node:fs/promises";
import { writeWhole } from "../disk.ts";

/** Room for a few pages of the database's journal, and for the pages when they are moved out of it. */
const BYTES = 512 * 1024;

export class Reserve {
  private readonly path: string;

  constructor(path: string) {
    this.path = path;
  }

  /** Take the room where it is not taken yet; a disk without it gives none. */
  async hold(): Promise<void> {
    if ((await stat(this.path).catch(() => undefined)) !== undefined) return;
    await writeWhole(this.path, "\0".repeat(BYTES), 0o600).catch(() => undefined);
  }

  /** Give the room to whoever writes next. */
  async spend(): Promise<void> {
    await rm(this.path, { force: true }).catch(() => undefined);
  }
}
