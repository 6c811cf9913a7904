// Blobs: files named by the SHA-256 of their bytes, written so that a named file is always whole.
import { createHash, randomUUID } from "node:crypto";
import { createReadStream, type ReadStream } from "node:fs";
import { mkdir, open, readdir, rename, rm, stat } from "node:fs/promises";
import { dirname, join } from "node:path";
import type { Readable } from "node:stream";
import { sync } from "../disk.ts";
import { expected, ServiceError } from "../errors.ts";
import { folderGone, storageRefusal } from "../store/storage.ts";

const NAME = /^[0-9a-f]{64}$/;

export interface StoredBlob {
  readonly sha256: string;
  readonly bytes: number;
}

/** A blob in a temporary file: whole and hashed, but not yet one of the stored ones. */
export interface StagedBlob extends StoredBlob {
  readonly path: string;
  /** Give it its name: from here on it is a stored blob. */
  keep(): Promise<void>;
  drop(): Promise<void>;
}

type Source = Readable | AsyncIterable<Uint8Array> | Iterable<Uint8Array>;

export interface BlobLimits {
  /** Largest number of bytes taken; more is refused with `too_large`. */
  readonly max: number;
  /** What is being sent, for the refusal's sentence: "the clip". */
  readonly what: string;
  /** The hash the sender promised; other bytes are refused with `hash_mismatch`. */
  readonly sha256?: string;
}

export class Blobs {
  readonly dir: string;
  private readonly incoming: string;
  /** State of each file when its bytes were last found to be those of its name. */
  private readonly hashed = new Map<string, string>();

  /** @param dir folder of the blobs; made by `prepare` */
  constructor(dir: string) {
    this.dir = dir;
    this.incoming = join(dir, "incoming");
  }

  async prepare(): Promise<void> {
    await mkdir(this.incoming, { recursive: true });
  }

  /** Where a blob lies. Only a hash makes a path: names from outside never do. */
  path(sha256: string): string {
    if (!NAME.test(sha256)) throw new RangeError(expected("64 hex digits", "a blob's name", "other text"));
    return join(this.dir, sha256.slice(0, 2), sha256);
  }

  async size(sha256: string): Promise<number | undefined> {
    return (await stat(this.path(sha256)).catch(() => undefined))?.size;
  }

  async has(sha256: string): Promise<boolean> {
    return (await this.size(sha256)) !== undefined;
  }

  /**
   * Whether the file is there and is what its name says. It is read once, and again when it has changed since.
   * @throws nothing: a file that cannot be read is not sound
   */
  async isSound(sha256: string): Promise<boolean> {
    const path = this.path(sha256);
    const stats = await stat(path).catch(() => undefined);
    if (stats === undefined) return false;
    const state = `${stats.ino} ${stats.size} ${stats.mtimeMs}`;
    if (this.hashed.get(sha256) === state) return true;
    if ((await hashFile(path).catch(() => undefined)) !== sha256) return false;
    this.hashed.set(sha256, state);
    return true;
  }

  /** @throws ServiceError `damaged_blob` for a file that is not what its name says */
  async assertSound(sha256: string): Promise<void> {
    if (await this.isSound(sha256)) return;
    throw new ServiceError(
      "damaged_blob",
      expected("the bytes that were stored", `the clip or photo ${sha256}`, "a damaged file: run verify, and restore a backup"),
    );
  }

  read(sha256: string, range?: { start: number; end: number }): ReadStream {
    return createReadStream(this.path(sha256), range);
  }

  /** Store bytes that are in memory. @throws ServiceError as `stage` */
  async put(bytes: Uint8Array, limits: BlobLimits): Promise<StoredBlob> {
    return await this.receive([bytes], limits);
  }

  /** Store a stream for good. @throws ServiceError as `stage` */
  async receive(source: Source, limits: BlobLimits): Promise<StoredBlob> {
    const staged = await this.stage(source, limits);
    try {
      await staged.keep();
    } finally {
      await staged.drop();
    }
    return { sha256: staged.sha256, bytes: staged.bytes };
  }

  /**
   * Take a stream into a temporary file that is on the disk for certain, to be looked at before it is kept.
   * The caller ends with `drop`, which after `keep` does nothing.
   * @throws ServiceError `too_large`, `hash_mismatch`, `out_of_space`; nothing is left behind then
   */
  async stage(source: Source, limits: BlobLimits): Promise<StagedBlob> {
    const path = join(this.incoming, randomUUID());
    try {
      const blob = await this.write(path, source, limits);
      const keep = () => this.settle(path, blob.sha256);
      return { ...blob, path, keep, drop: () => rm(path, { force: true }) };
    } catch (error) {
      await rm(path, { force: true });
      // Every folder was made at the start: one that is not there any more was taken away.
      if ((error as NodeJS.ErrnoException).code === "ENOENT") throw folderGone();
      throw storageRefusal(error) ?? error;
    }
  }

  private async write(path: string, source: Source, limits: BlobLimits): Promise<StoredBlob> {
    const hash = createHash("sha256");
    const file = await open(path, "wx", 0o600);
    let bytes = 0;
    try {
      for await (const chunk of source) {
        bytes += chunk.length;
        if (bytes > limits.max) throw new ServiceError("too_large", expected(`at most ${limits.max} bytes`, limits.what, "more"));
        hash.update(chunk);
        await file.writeFile(chunk);
      }
      await file.sync();
    } finally {
      await file.close();
    }
    const sha256 = hash.digest("hex");
    if (limits.sha256 !== undefined && limits.sha256 !== sha256)
      throw new ServiceError("hash_mismatch", expected(limits.sha256, `the SHA-256 of ${limits.what}`, sha256));
    return { sha256, bytes };
  }

  private async settle(temporary: string, sha256: string): Promise<void> {
    const path = this.path(sha256);
    const folder = dirname(path);
    const made = await mkdir(folder, { recursive: true });
    // The same bytes under the same name: replacing a whole file by its equal changes nothing.
    await rename(temporary, path);
    await sync(folder);
    if (made !== undefined) await sync(this.dir);
  }

  /** Give a file elsewhere on this disk its place among the blobs; the caller knows its hash. */
  async adopt(path: string, sha256: string): Promise<void> {
    await this.settle(path, sha256);
  }

  /** Names of all stored blobs, in order. */
  async *names(): AsyncGenerator<string> {
    const folders = await readdir(this.dir).catch(() => []);
    for (const folder of folders.sort()) {
      if (!/^[0-9a-f]{2}$/.test(folder)) continue;
      for (const name of (await readdir(join(this.dir, folder))).sort()) if (NAME.test(name)) yield name;
    }
  }

  /** Clear the half-written files that a crash left: nothing that was acknowledged is among them. Gives how many. */
  async clearIncoming(): Promise<number> {
    const names = await readdir(this.incoming).catch(() => []);
    for (const name of names) await rm(join(this.incoming, name), { force: true });
    return names.length;
  }
}

/** SHA-256 of a file as hex, read in pieces. */
export async function hashFile(path: string): Promise<string> {
  const hash = createHash("sha256");
  for await (const chunk of createReadStream(path)) hash.update(chunk as Buffer);
  return hash.digest("hex");
}
