// `thoubook export [BUILD]`: one build's log, or the list of builds, as JSON; with --blobs also its clips and photos.
import { mkdir } from "node:fs/promises";
import { join } from "node:path";
import { Blobs } from "../../blobs/blobs.ts";
import { dataPaths } from "../../data-dir.ts";
import { copyWhole } from "../../move/copy-files.ts";
import { exportJson, listBuilds } from "../../move/export-build.ts";
import { readExport } from "../../move/import-build.ts";
import { blobsOf } from "../../store/blob-refs.ts";
import { SqlStore } from "../../store/sql-store.ts";
import { openSqliteSnapshot } from "../../store/sqlite/snapshot.ts";
import { BAD_ARGUMENTS, DONE, FAILED, holdsShop, orSay, printJson, say } from "../output.ts";

export async function run(positional: unknown[], options: { data: string; blobs?: string }): Promise<number> {
  if (!holdsShop(options.data)) return BAD_ARGUMENTS;
  const paths = dataPaths(options.data);
  return await orSay(async () => {
    const snapshot = openSqliteSnapshot(paths.database);
    try {
      const store = new SqlStore(snapshot.db);
      const build = positional[0];
      if (typeof build !== "string") {
        printJson({ builds: await listBuilds(store) });
        return DONE;
      }
      const text = await exportJson(store, build);
      process.stdout.write(`${text}\n`);
      return options.blobs === undefined ? DONE : await copyBlobsOf(text, new Blobs(paths.blobs), options.blobs);
    } finally {
      await snapshot.close();
    }
  });
}

/** Copy what the exported entries name; one that is missing is told, and the others are copied. */
async function copyBlobsOf(text: string, blobs: Blobs, to: string): Promise<number> {
  await mkdir(to, { recursive: true });
  let missing = 0;
  for (const row of readExport(text))
    for (const { sha256, kind } of blobsOf(JSON.parse(row.body))) {
      if (await blobs.has(sha256)) await copyWhole(blobs.path(sha256), join(to, sha256));
      else {
        missing += 1;
        say(`Expected the ${kind} ${sha256} of entry ${row.seq}, got none`);
      }
    }
  return missing === 0 ? DONE : FAILED;
}
