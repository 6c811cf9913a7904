// A build's whole log as one JSON text, with every hash: what `import` and `check` read.
import type { BenchEvent } from "../../shared/events/events.ts";
import { expected, ServiceError } from "../errors.ts";
import { storedJson } from "../routes/rows.ts";
import type { Store } from "../store/store.ts";

const PAGE = 1000;

export interface BuildListed {
  readonly build: string;
  readonly name: string;
  readonly customer?: string;
  readonly openedAt: string;
  /** Number and hash of its last entry. */
  readonly seq: number;
  readonly hash: string;
}

/** The builds of a shop as a person knows them, in the order they were opened. One that cannot be read has its id for a name. */
export async function listBuilds(store: Store): Promise<BuildListed[]> {
  const builds: BuildListed[] = [];
  for (const { build, seq, hash } of await store.heads()) {
    const [first] = await store.rowsAfter(build, 0, 1).catch(() => []);
    const event = first === undefined ? undefined : (JSON.parse(first.body) as BenchEvent);
    const opened = event?.type === "build.opened" ? event : undefined;
    const customer = opened?.data.customer;
    builds.push({
      build,
      name: opened?.data.name ?? build,
      ...(customer === undefined ? {} : { customer }),
      openedAt: opened?.at ?? "",
      seq,
      hash,
    });
  }
  return builds.sort((a, b) => (a.openedAt < b.openedAt ? -1 : 1));
}

/** @throws ServiceError `unknown_build` */
export async function exportJson(store: Store, build: string): Promise<string> {
  const parts: string[] = [];
  for (let after = 0; ; ) {
    const rows = await store.rowsAfter(build, after, PAGE);
    for (const row of rows) parts.push(storedJson(row));
    after = rows.at(-1)?.seq ?? after;
    if (rows.length < PAGE) break;
  }
  if (parts.length === 0) throw new ServiceError("unknown_build", expected("a build of this shop", "build", build));
  return `{"format":"thoubook-build/1","build":"${build}","events":[${parts.join(",\n")}]}`;
}
