// A disk rebuilt from a trace of system calls: what was written, what of it was synced, and what a power cut would leave.
// A file's bytes are safe once the file was synced after them, a name once its folder was synced after it; nothing else is.
import { dirname } from "node:path";
import type { Random } from "./load.ts";

interface Change {
  readonly at: number;
  /** Bytes written there; without, the file is cut or grown to `at`. */
  readonly bytes?: Buffer;
}

class Inode {
  safe: Buffer<ArrayBuffer> = Buffer.alloc(0);
  readonly pending: Change[] = [];
}

const SECTOR = 512;

function changed(file: Buffer<ArrayBuffer>, { at, bytes }: Change): Buffer<ArrayBuffer> {
  const end = bytes === undefined ? at : Math.max(file.length, at + bytes.length);
  const next = Buffer.alloc(end);
  file.copy(next);
  if (bytes !== undefined) bytes.copy(next, at);
  return next;
}

/** What of the changes a disk that had not been told to keep them may have kept all the same: some sectors of some of them. */
function someOf(changes: readonly Change[], random: Random): Change[] {
  return changes.flatMap((change) => {
    const { at, bytes } = change;
    if (bytes === undefined) return random() < 0.5 ? [change] : [];
    const kept: Change[] = [];
    for (let from = 0; from < bytes.length; from += SECTOR)
      if (random() < 0.5) kept.push({ at: at + from, bytes: bytes.subarray(from, from + SECTOR) });
    return kept;
  });
}

interface Handle {
  readonly inode?: Inode;
  readonly folder?: string;
  position: number;
}

export class Disk {
  /** Folder whose files are followed; it is there, and safe, from the start. */
  readonly root: string;
  syncs = 0;
  private readonly names = new Map<string, Inode | "folder">();
  private readonly safeNames = new Map<string, Inode | "folder">();
  private readonly handles = new Map<number, Handle>();

  constructor(root: string) {
    this.root = root;
  }

  private isMine = (path: string) => path.startsWith(`${this.root}/`);

  open(fd: number, path: string, flags: string): void {
    this.handles.delete(fd);
    if (path === this.root || this.names.get(path) === "folder") this.handles.set(fd, { folder: path, position: 0 });
    if (!this.isMine(path) || this.names.get(path) === "folder") return;
    let inode = this.names.get(path);
    if (inode === undefined || inode === "folder") {
      inode = new Inode();
      this.names.set(path, inode);
    } else if (flags.includes("O_TRUNC")) inode.pending.push({ at: 0 });
    this.handles.set(fd, { inode, position: 0 });
  }

  close(fd: number): void {
    this.handles.delete(fd);
  }

  /** Gives false where `fd` is no file of this disk. */
  write(fd: number, bytes: Buffer, at?: number): boolean {
    const handle = this.handles.get(fd);
    if (handle?.inode === undefined) return false;
    handle.inode.pending.push({ at: at ?? handle.position, bytes });
    if (at === undefined) handle.position += bytes.length;
    return true;
  }

  truncate(fd: number, length: number): void {
    this.handles.get(fd)?.inode?.pending.push({ at: length });
  }

  /** Begin to sync; the function returned is to be called when the sync has returned. */
  sync(fd: number): () => void {
    const handle = this.handles.get(fd);
    const count = handle?.inode?.pending.length ?? 0;
    const there = [...this.names].filter(([path]) => dirname(path) === handle?.folder);
    return () => {
      if (handle === undefined) return;
      this.syncs += 1;
      if (handle.inode !== undefined)
        for (const change of handle.inode.pending.splice(0, count)) handle.inode.safe = changed(handle.inode.safe, change);
      if (handle.folder === undefined) return;
      for (const path of [...this.safeNames.keys()]) if (dirname(path) === handle.folder) this.safeNames.delete(path);
      for (const [path, entry] of there) this.safeNames.set(path, entry);
    };
  }

  makeFolder(path: string): void {
    if (this.isMine(path)) this.names.set(path, "folder");
  }

  rename(from: string, to: string): void {
    const entry = this.names.get(from);
    this.names.delete(from);
    if (entry !== undefined && this.isMine(to)) this.names.set(to, entry);
  }

  unlink(path: string): void {
    this.names.delete(path);
  }

  /** Bytes that were written and not synced, by the end of the file's name: "-wal". */
  unsynced(suffix: string): number {
    let bytes = 0;
    for (const [path, entry] of this.names)
      if (path.endsWith(suffix) && entry !== "folder") for (const change of entry.pending) bytes += change.bytes?.length ?? 0;
    return bytes;
  }

  /** The files a power cut at this moment leaves. Without `random` nothing that was not synced is left, with it some of it is. */
  afterCut(random?: Random): Map<string, Buffer> {
    const names = new Map(this.safeNames);
    if (random !== undefined)
      for (const path of new Set([...this.names.keys(), ...names.keys()])) {
        const now = this.names.get(path);
        if (now === names.get(path) || random() >= 0.5) continue;
        if (now === undefined) names.delete(path);
        else names.set(path, now);
      }
    const isThere = (folder: string): boolean =>
      folder === this.root || (names.get(folder) === "folder" && isThere(dirname(folder)));
    const files = new Map<string, Buffer>();
    for (const [path, entry] of names) {
      // Shared memory is no part of a disk's promises: the database makes it anew.
      if (entry === "folder" || path.endsWith("-shm") || !isThere(dirname(path))) continue;
      const kept = random === undefined ? [] : someOf(entry.pending, random);
      files.set(path.slice(this.root.length + 1), kept.reduce(changed, entry.safe));
    }
    return files;
  }
}
