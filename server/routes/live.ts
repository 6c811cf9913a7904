// GET a build's log as server-sent events: what is stored already after Last-Event-ID, then each event as it is stored.
import type { ServerResponse } from "node:http";
import pLimit from "p-limit";
import { buildParamsSchema } from "../../shared/api/builds.ts";
import { liveQuerySchema } from "../../shared/api/entries.ts";
import type { Deps } from "../deps.ts";
import { expected, ServiceError } from "../errors.ts";
import type { App } from "../http/types.ts";
import type { StoredRow } from "../store/store.ts";
import { storedJson } from "./rows.ts";

const HEARTBEAT_MS = 15_000;
/** Rows read at once for one watcher: others get their turn after each page. */
const PAGE = 50;
/** Open streams of one device; one more ends its oldest, which comes back when it is a screen that somebody looks at. */
const MOST_A_DEVICE = 16;
/** A watcher that takes nothing for so long is gone. */
const STALLED_MS = 30_000;
/** What is left in the pipe when a watcher is cut off gets this long. */
const LAST_WORDS_MS = 1000;

export function liveRoutes(app: App, deps: Deps): void {
  // Oldest first.
  const open = new Map<ServerResponse, string>();
  app.addHook("preClose", async () => {
    for (const response of open.keys()) response.end();
  });
  const makeRoom = (device: string) => {
    const own = [...open].filter(([, of]) => of === device);
    for (const [response] of own.slice(0, Math.max(0, own.length - MOST_A_DEVICE + 1))) endSoon(response);
  };

  app.get(
    "/api/builds/:build/live",
    // Asked for its headers alone a stream would end no sooner.
    {
      exposeHeadRoute: false,
      schema: { params: buildParamsSchema, querystring: liveQuerySchema },
      config: { endsItself: true },
    },
    async (request, reply) => {
      const { build } = request.params;
      const head = await deps.store.head(build);
      if (head === undefined) throw new ServiceError("unknown_build", expected("a build of this shop", "build", build));
      const asked = Number(request.headers["last-event-id"] ?? request.query.after ?? head.seq);
      const after = Number.isSafeInteger(asked) && asked >= 0 ? asked : head.seq;
      reply.hijack();
      const response = reply.raw as ServerResponse;
      const { principal } = request;
      const device = principal?.device ?? "";
      makeRoom(device);
      open.set(response, device);
      for (const [name, value] of Object.entries(reply.getHeaders())) if (value !== undefined) response.setHeader(name, value);
      response.writeHead(200, { "content-type": "text/event-stream", "cache-control": "no-store", "x-accel-buffering": "no" });
      response.write("retry: 2000\n\n");
      const uncut = principal === null ? () => undefined : deps.access.onCutOff(principal, () => endSoon(response));
      follow(deps, build, after, response, () => {
        open.delete(response);
        uncut();
      });
    },
  );
}

/** End a stream, also where nobody reads it to its end. */
function endSoon(response: ServerResponse): void {
  response.end();
  setTimeout(() => response.destroy(), LAST_WORDS_MS).unref();
}

/** One page of one watcher at a time, and whatever else came in meanwhile before the next. */
const turns = pLimit(1);

async function nextPage(deps: Deps, build: string, after: number, response: ServerResponse): Promise<readonly StoredRow[]> {
  await new Promise((resolve) => setImmediate(resolve));
  if (response.writableEnded || response.destroyed) return [];
  const rows = await deps.store.rowsAfter(build, after, PAGE);
  // One write for the page: each costs a call of the system.
  if (rows.length > 0 && !response.writableEnded)
    response.write(rows.map((row) => `id: ${row.seq}\ndata: ${storedJson(row)}\n\n`).join(""));
  return rows;
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
      const rows = await turns(() => nextPage(deps, build, after, response));
      after = rows.at(-1)?.seq ?? after;
      again ||= rows.length === PAGE;
      if (response.writableNeedDrain) await drained(response);
    }
    pumping = false;
  };
  // A failed read ends the stream; the screen comes back with its last number and misses nothing.
  const run = () => void pump().catch(() => response.end());
  const unwatch = deps.live.watch(build, run);
  const beat = setInterval(() => {
    // A pipe that is full already takes no beat.
    if (!response.writableNeedDrain) response.write(": still here\n\n");
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

/** Until the watcher has taken what was written, or is gone. */
function drained(response: ServerResponse): Promise<void> {
  return new Promise((resolve) => {
    const stalled = setTimeout(() => response.destroy(), STALLED_MS).unref();
    const done = () => {
      clearTimeout(stalled);
      response.off("drain", done).off("close", done);
      resolve();
    };
    response.on("drain", done).on("close", done);
  });
}
