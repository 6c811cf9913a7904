// `thoubook export [BUILD]`: one build's log, or the list of builds, as JSON; with --blobs also its clips and photos.
import { copyFile, mkdir } from "node:fs/promises";
import { join } from "node:path";
import { Blobs } from "../../blobs/blobs.ts";
import { dataPaths } from "../../data-dir.ts";
import { exportJson } from "../../move/export-build.ts";
import { SqlStore } from "../../store/sql-store.ts";
import { openSqliteSnapshot } from "../../store/sqlite/snapshot.ts";
import { BAD_ARGUMENTS, DONE, holdsShop, orSay, printJson } from "../output.ts";

export async function run(positional: unknown[], options: { data: string; blobs?: string }): Promise<number> {
  if (!holdsShop(options.data)) return BAD_ARGUMENTS;
  const paths = dataPaths(options.data);
  const snapshot = openSqliteSnapshot(paths.database);
  const store = new SqlStore(snapshot.db);
  try {
    return await orSay(async () => {
      const build = positional[0];
      if (typeof build !== "string") {
        printJson({ builds: await store.heads() });
        return DONE;
      }
      process.stdout.write(`${await exportJson(store, build)}\n`);
      if (options.blobs !== undefined) await copyBlobsOf(store, build, new Blobs(paths.blobs), options.blobs);
      return DONE;
    });
  } finally {
    await snapshot.close();
  }
}

async function copyBlobsOf(store: SqlStore, build: string, blobs: Blobs, to: string): Promise<void> {
  await mkdir(to, { recursive: true });
  for (const ref of await store.blobRefs()) if (ref.build === build) await copyFile(blobs.path(ref.sha256), join(to, ref.sha256));
}
