// Looks after a shop that is open: everything re-hashed once a day, backups on a schedule, and how both stand.
import type { Logger } from "pino";
import { type BackupLog, readBackupLog } from "../move/backup-log.ts";
import { type Fault, faultSchema } from "../move/fault.ts";
import { type ChildRun, runCommand } from "./child.ts";

const MINUTE_MS = 60_000;
const DAY_MS = 86_400_000;

export interface KeeperOptions {
  readonly dir: string;
  readonly logger: Logger;
  /** Where backups go, and how many hours apart. */
  readonly backups?: { readonly to: string; readonly everyHours: number };
  /** Told in one sentence of what the owner has to see to. */
  readonly tell?: (sentence: string) => void;
  /** Stands in for running a command of ours. */
  readonly run?: (args: readonly string[], signal: AbortSignal) => Promise<ChildRun>;
  /** How long after the start the first check begins. */
  readonly checkAfterMs?: number;
}

export interface Keeping {
  /** The last check that was run to its end since the start. */
  readonly check?: { readonly at: string; readonly faults: readonly Fault[] };
  readonly backups: BackupLog & {
    /** When the next one is due; absent when none are scheduled. */
    readonly next?: string;
    /** Why the last one failed, until one succeeds. */
    readonly failed?: string;
  };
}

export class Keeper {
  private readonly options: KeeperOptions;
  private readonly ending = new AbortController();
  private readonly timers = new Map<string, NodeJS.Timeout>();
  private work: Promise<void> = Promise.resolve();
  private check: Keeping["check"];
  private next: number | undefined;
  private failed: string | undefined;

  constructor(options: KeeperOptions) {
    this.options = options;
  }

  /** Begin to look after the shop; gives nothing up when a run fails. */
  async start(): Promise<void> {
    this.after("check", this.options.checkAfterMs ?? MINUTE_MS, () => this.rehash());
    const { backups } = this.options;
    if (backups === undefined) return;
    const { lastGood } = await readBackupLog(this.options.dir);
    const age = lastGood === undefined ? Number.POSITIVE_INFINITY : Date.now() - Date.parse(lastGood.at);
    this.planBackup(Math.max(0, backups.everyHours * 60 * MINUTE_MS - age));
  }

  async state(): Promise<Keeping> {
    const log = await readBackupLog(this.options.dir);
    return {
      ...(this.check === undefined ? {} : { check: this.check }),
      backups: {
        ...log,
        ...(this.next === undefined ? {} : { next: new Date(this.next).toISOString() }),
        ...(this.failed === undefined ? {} : { failed: this.failed }),
      },
    };
  }

  /** Ends what runs; resolves when it has ended. */
  async close(): Promise<void> {
    this.ending.abort();
    for (const timer of this.timers.values()) clearTimeout(timer);
    await this.work;
  }

  /** One run at a time: two would only be in each other's way. */
  private after(what: string, ms: number, run: () => Promise<void>): void {
    if (this.ending.signal.aborted) return;
    const timer = setTimeout(() => {
      this.work = this.work.then(run).catch((error: Error) => {
        if (!this.ending.signal.aborted) this.options.logger.error({ err: error }, `the ${what} could not be run`);
      });
    }, ms);
    this.timers.set(what, timer.unref());
  }

  private run(args: readonly string[]): Promise<ChildRun> {
    return (this.options.run ?? runCommand)([...args, "--data", this.options.dir], this.ending.signal);
  }

  private async rehash(): Promise<void> {
    this.after("check", DAY_MS, () => this.rehash());
    const { out, err } = await this.run(["verify"]);
    if (!out.startsWith("{")) throw new Error(`Expected a report of the check, got none. ${err}`);
    const faults = faultSchema.array().parse((JSON.parse(out) as { faults: unknown }).faults);
    this.check = { at: new Date().toISOString(), faults };
    for (const fault of faults) this.options.logger.error({ code: fault.code }, fault.message);
    if (faults.length > 0)
      this.options.tell?.(`The check of all entries and files found ${faults.length} faults. ${faults[0]?.message ?? ""}`);
  }

  private planBackup(ms: number): void {
    this.next = Date.now() + ms;
    this.after("backup", ms, () => this.backup());
  }

  private async backup(): Promise<void> {
    const { backups, tell, logger } = this.options;
    if (backups === undefined) return;
    this.planBackup(backups.everyHours * 60 * MINUTE_MS);
    const { code, err } = await this.run(["backup", backups.to, "--add"]);
    if (this.ending.signal.aborted) return;
    const sentence =
      err
        .trim()
        .split("\n")
        .filter((line) => !/^backup: /.test(line))[0] ?? "";
    this.failed = code === 0 ? undefined : sentence;
    if (code === 0) logger.info({ to: backups.to }, "backed up");
    else {
      logger.error({ to: backups.to }, `the backup is not a good one: ${sentence}`);
      tell?.(`The backup into ${backups.to} is not a good one. ${sentence}`);
    }
  }
}
