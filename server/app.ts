// The service as a plugin-built app: everything but the process. Tests and every listener boot this same thing.
import fastify, { type FastifyBaseLogger, LogController } from "fastify";
import { serializerCompiler, validatorCompiler, type ZodTypeProvider } from "fastify-type-provider-zod";
import { LIMITS } from "../shared/api/entries.ts";
import type { DemoMaker } from "./demo/demo-maker.ts";
import { demoRoutes } from "./demo/routes.ts";
import type { Deps } from "./deps.ts";
import { handleErrors } from "./http/errors.ts";
import { guard } from "./http/guard.ts";
import { securityHeaders } from "./http/headers.ts";
import { logRequests } from "./http/log.ts";
import { acceptForms } from "./http/multipart.ts";
import { describeApi } from "./http/openapi.ts";
import { limitRates } from "./http/rates.ts";
import { serveFiles } from "./http/static.ts";
import type { App } from "./http/types.ts";
import { blobRoutes } from "./routes/blobs.ts";
import { buildRoutes } from "./routes/builds.ts";
import { cardRoutes } from "./routes/cards.ts";
import { clipRoutes } from "./routes/clips.ts";
import { eventRoutes } from "./routes/events.ts";
import { healthRoutes } from "./routes/health.ts";
import { liveRoutes } from "./routes/live.ts";
import { photoRoutes } from "./routes/photos.ts";
import { utteranceRoutes } from "./routes/utterances.ts";
import { VERSION } from "./version.ts";

export interface AppOptions {
  readonly logger?: FastifyBaseLogger;
  /** Offers the demo build to the page, where it is to be offered. */
  readonly demo?: DemoMaker;
}

/** Build the service around `deps`; it listens nowhere yet. */
export async function buildApp(deps: Deps, options: AppOptions = {}): Promise<App> {
  const app = fastify({
    ...(options.logger === undefined ? {} : { loggerInstance: options.logger }),
    logController: new LogController({ disableRequestLogging: true }),
    bodyLimit: LIMITS.json,
    requestTimeout: 120_000,
    routerOptions: { maxParamLength: 200 },
    // What a paired device may claim about addresses is not believed.
    trustProxy: false,
  }).withTypeProvider<ZodTypeProvider>() as unknown as App;
  // A foreign page can post text without asking first; nothing here takes it.
  app.removeContentTypeParser("text/plain");
  app.setValidatorCompiler(validatorCompiler);
  app.setSerializerCompiler(serializerCompiler);
  handleErrors(app);
  logRequests(app);
  await securityHeaders(app);
  guard(app, deps.access);
  await limitRates(app);
  await acceptForms(app);
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
  if (options.demo !== undefined) demoRoutes(app, options.demo);
  await serveFiles(app, {
    ...(deps.webDir === undefined ? {} : { webDir: deps.webDir }),
    ...(deps.modelDir === undefined ? {} : { modelDir: deps.modelDir }),
  });
  stopInTime(app);
  return app;
}

/** Requests under way get this long to end when the service stops; sockets that only sit there do not hold it up. */
const PATIENCE_MS = 1500;

function stopInTime(app: App): void {
  app.addHook("preClose", async () => {
    const { server } = app;
    if ("closeAllConnections" in server) setTimeout(() => server.closeAllConnections(), PATIENCE_MS).unref();
  });
}
