// A shop's data are for the account that runs it alone: whatever a command makes, and what an earlier version left open.
import { existsSync } from "node:fs";
import { chmod, readdir, stat } from "node:fs/promises";
import { join } from "node:path";
import { dataPaths } from "../data-dir.ts";

/** Every right that others than the file's owner have. */
const OTHERS = 0o077;

/** Have this process make files as 0600 and folders as 0700. */
export function makePrivateFiles(): void {
  process.umask(OTHERS);
}

/**
 * Take others' rights from all that is in a shop's folder. Where the folder's own files are in order, those further down are
 * taken to be so too, so that a large shop starts fast.
 */
export async function closeToOthers(dir: string): Promise<void> {
  // A folder given by mistake may be somebody's whole home.
  if (!existsSync(dataPaths(dir).database)) return;
  if (await tighten(dir, false)) await tighten(dir, true);
}

/** Whether anything was open to others. Links are left alone. */
async function tighten(path: string, deep: boolean, level = 0): Promise<boolean> {
  const stats = await stat(path).catch(() => undefined);
  if (stats === undefined) return false;
  let open = (stats.mode & OTHERS) !== 0;
  if (open) await chmod(path, stats.mode & 0o777 & ~OTHERS).catch(() => undefined);
  if (!stats.isDirectory() || (!deep && level > 0)) return open;
  for (const entry of await readdir(path, { withFileTypes: true }).catch(() => []))
    if (!entry.isSymbolicLink() && (await tighten(join(path, entry.name), deep, level + 1))) open = true;
  return open;
}
