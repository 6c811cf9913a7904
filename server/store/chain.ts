// The hash chain of a build's log: each row's hash covers the row before it, the time of receipt and the event's exact text.
import { createHash } from "node:crypto";
import type { BenchEvent } from "../../shared/events/events.ts";

/** What the first event of a build is chained to. */
export const GENESIS = "0".repeat(64);

/** SHA-256 as hex over `prev`, the time of receipt and the stored text, each on its own line. */
export function chainHash(prev: string, receivedAt: string, body: string): string {
  return createHash("sha256").update(`${prev}\n${receivedAt}\n${body}`, "utf8").digest("hex");
}

export interface ChainRow {
  readonly seq: number;
  readonly id: string;
  readonly body: string;
  readonly prevHash: string;
  readonly hash: string;
  readonly receivedAt: string;
}

export type ChainFaultCode = "gap" | "broken_link" | "wrong_hash" | "wrong_event";

export interface ChainFault {
  readonly build: string;
  readonly seq: number;
  readonly code: ChainFaultCode;
  readonly message: string;
}

/** The end of a log, or of what of it is known to hold: the number and hash of its last entry. */
export interface Tip {
  readonly seq: number;
  readonly hash: string;
}

/** The end of a log without entries. */
export const BEFORE_FIRST: Tip = { seq: 0, hash: GENESIS };

/** Walks one build's rows in order and tells every place where the chain does not hold. */
export class ChainCheck {
  readonly build: string;
  readonly faults: ChainFault[] = [];
  seq: number;
  hash: string;
  private name = "";

  /** @param from where to go on from: what is before it has been walked already */
  constructor(build: string, from: Tip = BEFORE_FIRST) {
    this.build = build;
    this.seq = from.seq;
    this.hash = from.hash;
  }

  /** Check the next row. Gives its event where the hash covers it and the text is this row's own, else undefined. */
  add(row: ChainRow): BenchEvent | undefined {
    const before = this.faults.length;
    if (row.seq !== this.seq + 1)
      this.fault(row, "gap", `Expected entry ${this.seq + 1} next in ${this.label}, got entry ${row.seq}`);
    if (row.prevHash !== this.hash)
      this.fault(row, "broken_link", `Expected ${this.hash} for the hash before ${this.entry(row)}, got ${row.prevHash}`);
    const linked = this.faults.length;
    const hash = chainHash(row.prevHash, row.receivedAt, row.body);
    if (hash !== row.hash) this.fault(row, "wrong_hash", `Expected ${hash} for the hash of ${this.entry(row)}, got ${row.hash}`);
    const event = this.read(row);
    this.seq = row.seq;
    this.hash = row.hash;
    if (before === 0 && this.seq === 1 && event?.type === "build.opened") this.name = event.data.name;
    return this.faults.length === linked ? event : undefined;
  }

  /** The build as a person knows it. */
  get label(): string {
    return this.name === "" ? `build ${this.build}` : `build ${JSON.stringify(this.name)} (${this.build})`;
  }

  private entry(row: ChainRow): string {
    return `entry ${row.seq} of ${this.label}`;
  }

  /** The columns beside the hashed text must say what the text says. */
  private read(row: ChainRow): BenchEvent | undefined {
    const event = parse(row.body);
    if (event?.id === row.id && event.build === this.build) return event;
    this.fault(row, "wrong_event", `Expected event ${row.id} for ${this.entry(row)}, got another's text`);
    return undefined;
  }

  private fault(row: ChainRow, code: ChainFaultCode, message: string): void {
    this.faults.push({ build: this.build, seq: row.seq, code, message });
  }
}

function parse(body: string): BenchEvent | undefined {
  try {
    const value: unknown = JSON.parse(body);
    return value !== null && typeof value === "object" ? (value as BenchEvent) : undefined;
  } catch {
    return undefined;
  }
}
