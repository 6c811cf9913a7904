// What every listener of the shop stands on: checks at the door, headers, limits, one form of error, a log that keeps secrets.
import cookie from "@fastify/cookie";
import fastify, { type FastifyBaseLogger, type FastifyHttpsOptions, LogController } from "fastify";
import { serializerCompiler, validatorCompiler, type ZodTypeProvider } from "fastify-type-provider-zod";
import { LIMITS } from "../../shared/api/entries.ts";
import type { Access } from "../access/access.ts";
import { handleErrors } from "./errors.ts";
import { guard } from "./guard.ts";
import { securityHeaders } from "./headers.ts";
import { logRequests } from "./log.ts";
import { acceptForms } from "./multipart.ts";
import { limitRates } from "./rates.ts";
import type { App } from "./types.ts";

export interface BaseOptions {
  readonly logger?: FastifyBaseLogger;
  /** Key and certificate; without them the listener speaks plain http. */
  readonly https?: { readonly key: string; readonly cert: string };
}

/** An app with everything but routes. */
export async function baseApp(access: Access, options: BaseOptions): Promise<App> {
  const app = fastify({
    ...(options.logger === undefined ? {} : { loggerInstance: options.logger }),
    ...(options.https === undefined ? {} : { https: { ...options.https, minVersion: "TLSv1.2" } }),
    logController: new LogController({ disableRequestLogging: true }),
    bodyLimit: LIMITS.json,
    requestTimeout: 120_000,
    // As long as a whole address may be: a longer parameter would be refused before the door, without its headers.
    routerOptions: { maxParamLength: 16_384 },
    // What a device may claim about addresses is not believed.
    trustProxy: false,
  } as FastifyHttpsOptions<never>).withTypeProvider<ZodTypeProvider>() as unknown as App;
  // A foreign page can post text without asking first; nothing here takes it.
  app.removeContentTypeParser("text/plain");
  app.setValidatorCompiler(validatorCompiler);
  app.setSerializerCompiler(serializerCompiler);
  handleErrors(app);
  logRequests(app);
  await securityHeaders(app);
  await app.register(cookie);
  guard(app, access);
  await limitRates(app);
  await acceptForms(app);
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
