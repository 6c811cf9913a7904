// A small disk of its own, in memory, that a test can fill up and make read-only. Only root on Linux may mount one.
import { execFileSync } from "node:child_process";
import { closeSync, fsyncSync, mkdtempSync, openSync, rmSync, writeSync } from "node:fs";
import { tmpdir } from "node:os";
import { join } from "node:path";
import { atEnd } from "../helper.ts";

const run = (...args: string[]) => execFileSync(args[0] ?? "", args.slice(1), { stdio: "ignore" });

export const mayMount: boolean = (() => {
  const dir = mkdtempSync(join(tmpdir(), "thoubook-disk-"));
  try {
    run("mount", "-t", "tmpfs", "-o", "size=1m", "tmpfs", dir);
    run("umount", dir);
    return true;
  } catch {
    return false;
  } finally {
    rmSync(dir, { recursive: true });
  }
})();

export interface SmallDisk {
  readonly dir: string;
  /** Take up all the room there is. */
  fill(): void;
  free(): void;
  /** Let nothing be opened for writing any more; what is open already can still be written. */
  protect(): void;
  unprotect(): void;
}

/** Mount a disk of `megabytes`; gone when the test ends. */
export function smallDisk(megabytes: number): SmallDisk {
  const dir = mkdtempSync(join(tmpdir(), "thoubook-disk-"));
  run("mount", "-t", "tmpfs", "-o", `size=${megabytes}m`, "tmpfs", dir);
  atEnd(async () => {
    run("umount", "--lazy", "--all-targets", dir);
    rmSync(dir, { recursive: true, force: true });
  });
  const ballast = join(dir, "ballast");
  const fill = () => {
    const file = openSync(ballast, "a");
    try {
      for (const size of [65_536, 4096, 1]) for (;;) if (writeSync(file, Buffer.alloc(size)) < size) break;
    } catch (error) {
      if ((error as NodeJS.ErrnoException).code !== "ENOSPC") throw error;
    }
    fsyncSync(file);
    closeSync(file);
  };
  // A second mount over the first: the system does not take the right to write from a disk on which files are open.
  const protect = () => {
    run("mount", "--bind", dir, dir);
    run("mount", "-o", "remount,bind,ro", dir);
  };
  const unprotect = () => run("umount", "--lazy", dir);
  return { dir, fill, free: () => rmSync(ballast, { force: true }), protect, unprotect };
}
