// `thoubook import FILE`: what was taken in, as JSON. The chain is checked and the blobs are there before anything is stored.
import { createReadStream } from "node:fs";
import { readFile, stat } from "node:fs/promises";
import { join } from "node:path";
import { DataInUse, joinShopData, openShopData, type ShopData } from "../../data-dir.ts";
import { importBuild, readExport } from "../../move/import-build.ts";
import { MoveError } from "../../move/manifest.ts";
import { blobsOf } from "../../store/blob-refs.ts";
import { BAD_ARGUMENTS, DONE, orSay, printJson, say } from "../output.ts";

type Options = {
  readonly data: string;
  readonly blobs?: string;
  readonly withoutBlobs?: boolean;
};

export async function run(positional: unknown[], options: Options): Promise<number> {
  const file = String(positional[0]);
  const text = await readFile(file, "utf8").catch(() => undefined);
  if (text === undefined) {
    say(`Expected a file to import, got none at ${file}`);
    return BAD_ARGUMENTS;
  }
  return await orSay(async () => {
    readExport(text);
    const data = await openOrJoin(options.data);
    try {
      const missing = await takeBlobs(data, text, options.blobs);
      if (missing > 0 && options.withoutBlobs !== true)
        throw new MoveError(
          `Expected the build's clips and photos beside its log, got ${missing} missing: give their folder with --blobs`,
        );
      printJson({ ...(await importBuild(data.store, text)), missingBlobs: missing });
      return DONE;
    } finally {
      await data.close();
    }
  });
}

/** Beside a running server the import is one more writer of its database; alone it holds the folder. */
async function openOrJoin(dir: string): Promise<ShopData> {
  try {
    return await openShopData(dir);
  } catch (error) {
    if (!(error instanceof DataInUse)) throw error;
    return await joinShopData(dir);
  }
}

/** Take the blobs of the export's events from `dir`, each checked by its hash; gives how many are nowhere. */
async function takeBlobs(data: ShopData, text: string, dir: string | undefined): Promise<number> {
  let missing = 0;
  for (const row of readExport(text))
    for (const { sha256 } of blobsOf(JSON.parse(row.body))) {
      if (await data.blobs.has(sha256)) continue;
      const path = dir === undefined ? undefined : join(dir, sha256);
      const size = path === undefined ? undefined : (await stat(path).catch(() => undefined))?.size;
      if (path === undefined || size === undefined) missing += 1;
      else await data.blobs.receive(createReadStream(path), { max: size, what: `blob ${sha256}`, sha256 });
    }
  return missing;
}
