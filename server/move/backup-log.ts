// When the shop was last backed up, kept in its folder: how old the last good copy is must be seen before it is needed.
import { readFile } from "node:fs/promises";
import { z } from "zod";
import { dataPaths } from "../data-dir.ts";
import { writeWhole } from "../disk.ts";

const backupSchema = z.strictObject({ at: z.iso.datetime(), to: z.string(), faults: z.int().min(0) });
export type BackupNote = z.infer<typeof backupSchema>;
const logSchema = z.strictObject({ last: backupSchema.optional(), lastGood: backupSchema.optional() });
export type BackupLog = z.infer<typeof logSchema>;

/** What is known of the shop's backups; a note that cannot be read counts for none. */
export async function readBackupLog(dir: string): Promise<BackupLog> {
  const text = await readFile(dataPaths(dir).backups, "utf8").catch(() => "{}");
  try {
    return logSchema.parse(JSON.parse(text));
  } catch {
    return {};
  }
}

/** Keep that a backup was made. A folder that takes no writes does not make the backup a failed one. */
export async function noteBackup(dir: string, note: BackupNote): Promise<void> {
  const log = await readBackupLog(dir);
  const next = { ...log, last: note, ...(note.faults === 0 ? { lastGood: note } : {}) };
  await writeWhole(dataPaths(dir).backups, `${JSON.stringify(next, null, 2)}\n`, 0o600).catch(() => undefined);
}

/** The same with what went wrong since, and when the next one is due. */
export function sayBackups(log: BackupLog & { next?: string; failed?: string }, now = Date.now()): string {
  const failed = log.failed === undefined ? "" : ` The last one since is not a good one: ${log.failed}.`;
  const next = log.next === undefined ? "" : ` The next one is due on ${log.next.slice(0, 16).replace("T", " at ")} UTC.`;
  return `${sayBackupAge(log, now)}.${failed}${next}`.replace("..", ".");
}

const UNITS: readonly (readonly [number, string])[] = [
  [86_400_000, "day"],
  [3_600_000, "hour"],
  [60_000, "minute"],
];

/** The age of the last good backup in words. */
export function sayBackupAge({ lastGood }: BackupLog, now = Date.now()): string {
  if (lastGood === undefined)
    return "No good backup of this shop is known: thoubook backup FOLDER makes one, serve --backups FOLDER one a day.";
  const age = Math.max(0, now - Date.parse(lastGood.at));
  const [size, unit] = UNITS.find(([ms]) => age >= ms) ?? [60_000, "minute"];
  const count = Math.floor(age / size);
  return `The last good backup is ${count} ${unit}${count === 1 ? "" : "s"} old: ${lastGood.to}`;
}
