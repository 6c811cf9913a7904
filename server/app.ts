// The service as a plugin-built app: everything but the process. Tests and every listener boot this same thing.
import type { DemoMaker } from "./demo/demo-maker.ts";
import { demoRoutes } from "./demo/routes.ts";
import type { Deps } from "./deps.ts";
import { type BaseOptions, baseApp } from "./http/base.ts";
import { describeApi } from "./http/openapi.ts";
import { serveFiles } from "./http/static.ts";
import type { App } from "./http/types.ts";
import { blobRoutes } from "./routes/blobs.ts";
import { buildRoutes } from "./routes/builds.ts";
import { cardRoutes } from "./routes/cards.ts";
import { clipRoutes } from "./routes/clips.ts";
import { eventRoutes } from "./routes/events.ts";
import { healthRoutes } from "./routes/health.ts";
import { keepingRoutes } from "./routes/keeping.ts";
import { liveRoutes } from "./routes/live.ts";
import { photoRoutes } from "./routes/photos.ts";
import { utteranceRoutes } from "./routes/utterances.ts";
import { VERSION } from "./version.ts";

export interface AppOptions extends BaseOptions {
  /** Offers the demo build to the page, where it is to be offered. */
  readonly demo?: DemoMaker;
  /** More routes: pairing, the owner's pages. */
  readonly more?: (app: App) => void;
}

/** Build the service around `deps`; it listens nowhere yet. */
export async function buildApp(deps: Deps, options: AppOptions = {}): Promise<App> {
  const app = await baseApp(deps.access, options);
  await describeApi(app, VERSION);
  healthRoutes(app, deps, VERSION);
  buildRoutes(app, deps);
  eventRoutes(app, deps);
  utteranceRoutes(app, deps);
  clipRoutes(app, deps);
  photoRoutes(app, deps);
  cardRoutes(app, deps);
  blobRoutes(app, deps);
  liveRoutes(app, deps);
  if (deps.keeping !== undefined) keepingRoutes(app, deps.keeping);
  if (options.demo !== undefined) demoRoutes(app, options.demo);
  options.more?.(app);
  await serveFiles(app, {
    ...(deps.webDir === undefined ? {} : { webDir: deps.webDir }),
    ...(deps.modelFiles === undefined ? {} : { modelFiles: deps.modelFiles }),
  });
  return app;
}
