// The ends of the logs that this process has walked: nothing is appended to a chain that does not hold up to its end.
import type { Kysely } from "kysely";
import { ServiceError } from "../errors.ts";
import { BEFORE_FIRST, ChainCheck, type Tip } from "./chain.ts";
import { rowOf } from "./rows.ts";
import type { Tables } from "./tables.ts";

const PAGE = 1000;

export class Tips {
  private readonly known = new Map<string, Tip>();
  private readonly onGrown: (build: string, tip: Tip) => void;

  /** @param onGrown told of every new end that is stored for certain */
  constructor(onGrown: (build: string, tip: Tip) => void = () => {}) {
    this.onGrown = onGrown;
  }

  /**
   * The end of a build's log. What this process has not walked yet is walked first: all of it once, then only what is new.
   * @throws ServiceError `damaged_log` when the chain does not hold, or has lost its end
   */
  async end(db: Kysely<Tables>, build: string): Promise<Tip> {
    const known = this.known.get(build) ?? BEFORE_FIRST;
    const check = new ChainCheck(build, known);
    for (let from = known.seq; ; ) {
      const rows = await db
        .selectFrom("event")
        .selectAll()
        .where("build", "=", build)
        .where("seq", ">=", from)
        .orderBy("seq")
        .limit(PAGE)
        .execute();
      // The entry that was the last one must still be there: it is read again, not walked again.
      const [first, ...rest] = rows;
      if (from > 0 && (first?.seq !== from || first.hash !== check.hash)) throw lostEnd(check, from);
      for (const row of from > 0 ? rest : rows) check.add(rowOf(row));
      if (check.faults[0] !== undefined) throw broken(check.faults[0].message);
      if (rows.length < PAGE) break;
      from = check.seq;
    }
    const tip = { seq: check.seq, hash: check.hash };
    this.known.set(build, tip);
    return tip;
  }

  /** This process has appended up to `tip`. */
  grown(build: string, { seq, hash }: Tip): void {
    this.known.set(build, { seq, hash });
    this.onGrown(build, { seq, hash });
  }
}

const broken = (message: string) =>
  new ServiceError(
    "damaged_log",
    `Expected a whole chain to go on from, got a damaged log, to which nothing is added. ${message}`,
  );

const lostEnd = (check: ChainCheck, seq: number) =>
  broken(`Expected entry ${seq} at the end of ${check.label}, got another or none`);
