// Kills a loaded shop at random points, starts it again, and holds what it has against what it acknowledged.
import { mkdir, readdir, rm } from "node:fs/promises";
import { join } from "node:path";
import { Ledger, type Standing } from "./ledger.ts";
import { Load, type Random } from "./load.ts";
import { kill, type Program, type Served, serve, sleep, start } from "./shop-process.ts";

/** Where a kill falls: while the shop starts, under load, while it stops, or while a backup is made beside the load. */
const MOMENTS = ["load", "start", "start", "backup", "start", "stop", "start", "backup"] as const;
export type Moment = (typeof MOMENTS)[number];

export interface TortureOptions {
  readonly program: Program;
  /** An empty folder for the shop and its backups. */
  readonly dir: string;
  readonly kills: number;
  readonly random: Random;
  /** The longest a shop is left under load before it is killed, ms. */
  readonly loadMs?: number;
  /** Leaves off before that many kills, with the figures so far. */
  readonly stop?: AbortSignal;
  tell?(line: string): void;
}

export interface TortureReport {
  readonly kills: Record<Moment, number>;
  readonly requests: number;
  readonly sentAgain: number;
  readonly acknowledged: number;
  readonly blobs: number;
  readonly lost: number;
  readonly duplicated: number;
  readonly corrupted: number;
  readonly refused: readonly string[];
  /** Backups that got their name, and those of them that did not restore to all that was acknowledged before. */
  readonly backups: { readonly finished: number; readonly broken: number };
  /** What `verify` said of the folder after the last kill. */
  readonly verified: boolean;
}

const SENDERS = 3;
/** A start that takes longer than this is taken for one that hangs. */
const START_MS = 120_000;

export class Torture {
  private readonly options: TortureOptions;
  private readonly ledger = new Ledger();
  private readonly load: Load;
  private readonly kills: Record<Moment, number> = { start: 0, load: 0, stop: 0, backup: 0 };
  private readonly bad = { lost: new Set<string>(), duplicated: new Set<string>(), corrupted: new Set<string>() };
  private readonly backups = { finished: 0, broken: 0 };
  /** How long the last start took, for kills that are to fall into one. */
  private startMs = 2000;
  private round = 0;

  constructor(options: TortureOptions) {
    this.options = options;
    this.load = new Load(this.ledger, options.random);
  }

  private get shop(): string {
    return join(this.options.dir, "shop");
  }

  private get killed(): number {
    return Object.values(this.kills).reduce((sum, count) => sum + count, 0);
  }

  /** Run until so many kills are done; with none, one start under a little load. */
  async run(): Promise<TortureReport> {
    await mkdir(this.options.dir, { recursive: true });
    while (this.killed < this.options.kills && this.options.stop?.aborted !== true) {
      const moment = MOMENTS[this.round % MOMENTS.length] ?? "load";
      this.round += 1;
      if (moment === "start") await this.killStart();
      else await this.killServing(moment);
      if (this.round % 20 === 0)
        this.options.tell?.(`${this.killed} kills, ${this.ledger.entries.size} acknowledged, ${this.summary()}`);
    }
    return await this.end();
  }

  private summary(): string {
    return (["lost", "duplicated", "corrupted"] as const).map((name) => `${name} ${this.bad[name].size}`).join(", ");
  }

  private async killStart(): Promise<void> {
    const shop = serve(this.options.program, this.shop);
    await sleep(this.options.random() * this.startMs * 1.1);
    if (await kill(shop)) this.kills.start += 1;
  }

  private async opened(): Promise<{ shop: Served; url: string }> {
    const from = performance.now();
    const shop = serve(this.options.program, this.shop);
    const url = await Promise.race([shop.open, sleep(START_MS)]);
    if (url === undefined) {
      await kill(shop);
      throw new Error(`Expected the shop to open after a kill, got: ${shop.err()}`);
    }
    this.startMs = performance.now() - from;
    return { shop, url };
  }

  private async killServing(moment: Exclude<Moment, "start">): Promise<void> {
    const { shop, url } = await this.opened();
    this.note(await this.ledger.standing(this.shop, { blobs: this.round % 10 === 0 }));
    let over = false;
    const loading = this.load.run(url, SENDERS, () => over);
    const loadMs = this.options.loadMs ?? 1200;
    await sleep((0.2 + this.options.random() * 0.8) * loadMs);
    if (moment === "backup") await this.backupBeside();
    if (moment === "stop") {
      shop.child.kill("SIGTERM");
      await sleep(this.options.random() * 400);
    }
    if (await kill(shop)) this.kills[moment === "stop" ? "stop" : "load"] += 1;
    over = true;
    await loading;
  }

  /** A backup beside the load: killed at some moment, or left to end and then held against what was acknowledged before it. */
  private async backupBeside(): Promise<void> {
    const { program, dir, random } = this.options;
    const out = join(dir, `backup-${this.round}`);
    const before = this.ledger.entries.size;
    const making = start(program, ["backup", out, "--data", this.shop]);
    if (random() < 0.7) {
      await sleep(random() * this.startMs * 1.5);
      if (await kill(making)) this.kills.backup += 1;
    }
    const { code, err } = await making.ended;
    if (code === 0) await this.checkBackup(out, before);
    else if (code !== null) {
      this.backups.broken += 1;
      this.options.tell?.(`backup failed: ${err.trim().split("\n").at(-1)}`);
    }
    // A backup that was killed leaves what it had under a name of its own.
    for (const left of await readdir(dir))
      if (left.startsWith("backup-")) await rm(join(dir, left), { recursive: true, force: true });
  }

  private async checkBackup(out: string, before: number): Promise<void> {
    this.backups.finished += 1;
    const again = `${out}-restored`;
    const { code, err } = await start(this.options.program, ["restore", out, "--data", again]).ended;
    const standing = code === 0 ? await this.ledger.standing(again, { upTo: before }) : undefined;
    const bad = standing === undefined ? 1 : standing.lost.length + standing.corrupted.length + standing.duplicated.length;
    if (bad > 0) {
      this.backups.broken += 1;
      this.options.tell?.(`backup broken: ${err.trim()} ${JSON.stringify(standing)?.slice(0, 300)}`);
    }
    await rm(again, { recursive: true, force: true });
  }

  private note(standing: Standing): void {
    for (const name of ["lost", "duplicated", "corrupted"] as const) for (const id of standing[name]) this.bad[name].add(id);
  }

  /** One more start: what was never answered goes again, then all is held against the ledger, and `verify` has its say. */
  private async end(): Promise<TortureReport> {
    const { shop, url } = await this.opened();
    await this.load.run(url, 1, () => this.load.unanswered.length === 0);
    this.note(await this.ledger.standing(this.shop, { blobs: true }));
    const { code, err } = await start(this.options.program, ["verify", "--data", this.shop]).ended;
    if (code !== 0) this.options.tell?.(`verify: ${err.trim()}`);
    shop.child.kill("SIGTERM");
    await shop.ended;
    return {
      kills: this.kills,
      requests: this.load.requests,
      sentAgain: this.load.sentAgain,
      acknowledged: this.ledger.entries.size,
      blobs: this.ledger.blobs.size,
      lost: this.bad.lost.size,
      duplicated: this.bad.duplicated.size,
      corrupted: this.bad.corrupted.size,
      refused: [...new Set(this.load.refused)],
      backups: this.backups,
      verified: code === 0,
    };
  }
}
