// The process around the service: opens the shop's data, listens on this machine, stops cleanly.
import { existsSync } from "node:fs";
import type { AddressInfo } from "node:net";
import { join } from "node:path";
import type { Logger } from "pino";
import { openPhotoReader } from "../extractors/photo/index.ts";
import { Evaluator } from "../shared/rules/index.ts";
import { loopbackAccess } from "./access/access.ts";
import { buildApp } from "./app.ts";
import { Builds } from "./builds/builds.ts";
import { LiveBus } from "./builds/live-bus.ts";
import { dataPaths, openShopData } from "./data-dir.ts";
import { DemoMaker } from "./demo/demo-maker.ts";
import type { Deps, Hearing } from "./deps.ts";
import { projectRoot } from "./version.ts";

/** What understands words and sound; opened once a process. */
export interface Senses {
  readonly parse: Deps["parse"];
  readonly hearing: Hearing;
  close(): Promise<void>;
}

export interface ServeOptions {
  readonly dataDir: string;
  /** 0 takes any free port. */
  readonly port: number;
  readonly logger: Logger;
  readonly senses: Senses;
}

export interface Shop {
  readonly deps: Deps;
  readonly demo: DemoMaker;
  /** Address on this machine. */
  readonly url: string;
  close(): Promise<void>;
}

/**
 * Open the data folder and serve it on 127.0.0.1.
 * @throws DataInUse when another process has the folder; Error `EADDRINUSE` when the port is taken
 */
export async function startShop(options: ServeOptions): Promise<Shop> {
  const { dataDir, logger, senses } = options;
  const data = await openShopData(dataDir);
  if (data.swept.partial + data.swept.orphans > 0) logger.info(data.swept, "cleared what a crash had left");
  const root = projectRoot();
  const webDir = join(root, "dist", "web");
  const modelDir = join(root, "node_modules", "soundswallower", "model");
  const deps: Deps = {
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
    ...(existsSync(modelDir) ? { modelDir } : {}),
  };
  const demo = new DemoMaker(deps, join(root, "demo-data"));
  const app = await buildApp(deps, { logger, demo });
  const close = async () => {
    await app.close();
    await senses.close();
    await data.close();
  };
  try {
    await app.listen({ host: "127.0.0.1", port: options.port });
  } catch (error) {
    await close();
    throw error;
  }
  return { deps, demo, url: `http://127.0.0.1:${(app.server.address() as AddressInfo).port}`, close };
}
