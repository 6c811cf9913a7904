// A build's whole log as one JSON text, with every hash: what `import` and `check` read.
import { expected, ServiceError } from "../errors.ts";
import { storedJson } from "../routes/rows.ts";
import type { Store } from "../store/store.ts";

const PAGE = 1000;

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
