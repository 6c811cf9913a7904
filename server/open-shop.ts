// The shop without a door: its data, senses, builds and demo put together. Servers and commands both start from here.
import { existsSync } from "node:fs";
import { join } from "node:path";
import type { Logger } from "pino";
import { servedFiles } from "../extractors/hearing/node/index.ts";
import { openPhotoReader } from "../extractors/photo/index.ts";
import { Evaluator } from "../shared/rules/index.ts";
import { loopbackAccess } from "./access/access.ts";
import { Builds } from "./builds/builds.ts";
import { LiveBus } from "./builds/live-bus.ts";
import { dataPaths, openShopData, type ShopData } from "./data-dir.ts";
import { DemoMaker } from "./demo/demo-maker.ts";
import type { Deps, Hearing } from "./deps.ts";
import { projectRoot } from "./version.ts";

/** What understands words and sound; opened once a process. */
export interface Senses {
  readonly parse: Deps["parse"];
  readonly hearing: Hearing;
  close(): Promise<void>;
}

export interface OpenShopOptions {
  readonly dataDir: string;
  readonly logger: Logger;
  readonly senses: Senses;
  /** Go on from a log that has lost entries. */
  readonly asIs?: boolean;
}

export interface OpenShop {
  readonly deps: Deps;
  readonly data: ShopData;
  readonly demo: DemoMaker;
  close(): Promise<void>;
}

/**
 * Open the data folder and put the shop together.
 * @throws DataInUse when another process has the folder
 */
export async function openShop({ dataDir, logger, senses, asIs = false }: OpenShopOptions): Promise<OpenShop> {
  const data = await openShopData(dataDir, { asIs });
  if (data.cleared > 0) logger.info({ files: data.cleared }, "cleared half-written files that a crash had left");
  const root = projectRoot();
  const webDir = join(root, "dist", "web");
  const deps: Deps = {
    shop: data.shop,
    store: data.store,
    blobs: data.blobs,
    builds: new Builds(data.store, (build) => new Evaluator(build)),
    live: new LiveBus(),
    access: loopbackAccess,
    hearing: senses.hearing,
    photos: openPhotoReader(),
    parse: senses.parse,
    derivedDir: dataPaths(dataDir).derived,
    ...(existsSync(webDir) ? { webDir } : {}),
    modelFiles: servedFiles(),
  };
  const close = async () => {
    await senses.close();
    await data.close();
  };
  return { deps, data, demo: new DemoMaker(deps, join(root, "demo-data")), close };
}
