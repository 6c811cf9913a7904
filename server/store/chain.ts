// The hash chain of a build's log: each row's hash covers the row before it, the time of receipt and the event's exact text.
import { createHash } from "node:crypto";

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

export interface ChainFault {
  readonly build: string;
  readonly seq: number;
  readonly code: "gap" | "broken_link" | "wrong_hash" | "wrong_event";
  readonly message: string;
}

/** Walks one build's rows in order and tells every place where the chain does not hold. */
export class ChainCheck {
  readonly build: string;
  readonly faults: ChainFault[] = [];
  seq = 0;
  hash = GENESIS;

  constructor(build: string) {
    this.build = build;
  }

  add(row: ChainRow): void {
    if (row.seq !== this.seq + 1) this.fault(row, "gap", `Expected number ${this.seq + 1} for the next event, got ${row.seq}`);
    if (row.prevHash !== this.hash)
      this.fault(row, "broken_link", `Expected ${this.hash} for the hash before event ${row.seq}, got ${row.prevHash}`);
    const hash = chainHash(row.prevHash, row.receivedAt, row.body);
    if (hash !== row.hash) this.fault(row, "wrong_hash", `Expected ${hash} for the hash of event ${row.seq}, got ${row.hash}`);
    this.checkIdentity(row);
    this.seq = row.seq;
    this.hash = row.hash;
  }

  /** The columns beside the hashed text must say what the text says. */
  private checkIdentity(row: ChainRow): void {
    let event: { id?: unknown; build?: unknown } = {};
    try {
      event = JSON.parse(row.body) as typeof event;
    } catch {
      // The text is no JSON: told below as an event that is not the row's.
    }
    if (event.id !== row.id || event.build !== this.build)
      this.fault(row, "wrong_event", `Expected event ${row.id} of this build in row ${row.seq}, got another`);
  }

  private fault(row: ChainRow, code: ChainFault["code"], message: string): void {
    this.faults.push({ build: this.build, seq: row.seq, code, message });
  }
}
