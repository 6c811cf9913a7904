// The log: one line a request with its route, never its query, body, cookie or what was said.
import { destination, type Logger, pino } from "pino";
import type { App } from "./types.ts";

const SECRET = ["cookie", "authorization", "set-cookie", "token", "code", "text", "heard"];

/** A logger to standard error, so that standard output stays for data. */
export function makeLogger(level = "info"): Logger {
  const out = destination(2);
  // Its reader has ended, or its disk is full: the service goes on without a log.
  out.on("error", () => undefined);
  return pino(
    {
      level,
      redact: {
        paths: ["req.headers", "res.headers", ...SECRET.flatMap((name) => [`secret.${name}`, `headers["${name}"]`])],
        censor: "[kept back]",
      },
    },
    out,
  );
}

/** One line when an answer has gone out. The route's pattern stands for the path, which may hold a token. */
export function logRequests(app: App): void {
  app.addHook("onResponse", async (request, reply) => {
    request.log.info(
      {
        method: request.method,
        route: request.routeOptions.url ?? "(none)",
        status: reply.statusCode,
        ms: Math.round(reply.elapsedTime * 10) / 10,
        device: request.principal?.device,
      },
      "answered",
    );
  });
}
