// GET a build's log as server-sent events: what is stored already after Last-Event-ID, then each event as it is stored.
import type { ServerResponse } from "node:http";
import { buildParamsSchema } from "../../shared/api/builds.ts";
import { liveQuerySchema } from "../../shared/api/entries.ts";
import type { Deps } from "../deps.ts";
import { expected, ServiceError } from "../errors.ts";
import type { App } from "../http/types.ts";
import { storedJson } from "./rows.ts";

const HEARTBEAT_MS = 15_000;
const PAGE = 500;

export function liveRoutes(app: App, deps: Deps): void {
  const open = new Set<ServerResponse>();
  app.addHook("preClose", async () => {
    for (const response of open) response.end();
  });

  app.get(
    "/api/builds/:build/live",
    { schema: { params: buildParamsSchema, querystring: liveQuerySchema } },
    async (request, reply) => {
      const { build } = request.params;
      const head = await deps.store.head(build);
      if (head === undefined) throw new ServiceError("unknown_build", expected("a build of this shop", "build", build));
      const asked = Number(request.headers["last-event-id"] ?? request.query.after ?? head.seq);
      const after = Number.isSafeInteger(asked) && asked >= 0 ? asked : head.seq;
      reply.hijack();
      const response = reply.raw as ServerResponse;
      open.add(response);
      for (const [name, value] of Object.entries(reply.getHeaders())) if (value !== undefined) response.setHeader(name, value);
      response.writeHead(200, { "content-type": "text/event-stream", "cache-control": "no-store", "x-accel-buffering": "no" });
      response.write("retry: 2000\n\n");
      const { principal } = request;
      const uncut = principal === null ? () => undefined : deps.access.onCutOff(principal, () => response.end());
      follow(deps, build, after, response, () => {
        open.delete(response);
        uncut();
      });
    },
  );
}

/** Send rows in order as they come. One pump at a time reads the store; a slow reader makes it wait. */
function follow(deps: Deps, build: string, from: number, response: ServerResponse, ended: () => void): void {
  let after = from;
  let pumping = false;
  let again = false;
  const pump = async () => {
    again = true;
    if (pumping) return;
    pumping = true;
    while (again && !response.writableEnded) {
      again = false;
      const rows = await deps.store.rowsAfter(build, after, PAGE);
      for (const row of rows) {
        if (!response.write(`id: ${row.seq}\ndata: ${storedJson(row)}\n\n`)) await drained(response);
        after = row.seq;
      }
      again ||= rows.length === PAGE;
    }
    pumping = false;
  };
  // A failed read ends the stream; the screen comes back with its last number and misses nothing.
  const run = () => void pump().catch(() => response.end());
  const unwatch = deps.live.watch(build, run);
  const beat = setInterval(() => {
    response.write(": still here\n\n");
    // Also looks into the store: another process may have written to it.
    run();
  }, HEARTBEAT_MS);
  response.on("error", () => response.destroy());
  response.on("close", () => {
    clearInterval(beat);
    unwatch();
    ended();
  });
  run();
}

function drained(response: ServerResponse): Promise<void> {
  return new Promise((resolve) => {
    response.once("drain", resolve);
    response.once("close", () => resolve());
  });
}
