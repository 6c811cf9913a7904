// A build's log: reading it in order, and appending events that were made on a device.
import { buildParamsSchema } from "../../shared/api/builds.ts";
import { eventsPageSchema, eventsQuerySchema, postEventsSchema, receiptsSchema } from "../../shared/api/entries.ts";
import { errorSchema } from "../../shared/api/errors.ts";
import { checkBlobs } from "../builds/check-blobs.ts";
import { logEvents } from "../builds/log.ts";
import { inTheNameOf, whoOf } from "../builds/who.ts";
import type { Deps } from "../deps.ts";
import { expected, ServiceError } from "../errors.ts";
import type { App } from "../http/types.ts";
import { receiptOf, storedJson } from "./rows.ts";

export function eventRoutes(app: App, deps: Deps): void {
  app.get(
    "/api/builds/:build/events",
    {
      schema: {
        params: buildParamsSchema,
        querystring: eventsQuerySchema,
        response: { 200: eventsPageSchema, 404: errorSchema },
      },
    },
    async (request, reply) => {
      const { build } = request.params;
      const head = await deps.store.head(build);
      if (head === undefined) throw new ServiceError("unknown_build", expected("a build of this shop", "build", build));
      const rows = await deps.store.rowsAfter(build, request.query.after, request.query.limit);
      const text = `{"events":[${rows.map(storedJson).join(",\n")}],"last":${Math.max(head.seq, rows.at(-1)?.seq ?? 0)}}`;
      return reply.type("application/json; charset=utf-8").send(text as never);
    },
  );

  app.post(
    "/api/builds/:build/events",
    {
      schema: {
        params: buildParamsSchema,
        body: postEventsSchema,
        response: {
          200: receiptsSchema,
          400: errorSchema,
          404: errorSchema,
          409: errorSchema,
          415: errorSchema,
          422: errorSchema,
        },
      },
    },
    async (request) => {
      const { build } = request.params;
      for (const event of request.body.events)
        if (event.build !== build)
          throw new ServiceError("wrong_build", expected(`build ${build}`, `event ${event.id}`, event.build));
      await checkBlobs(deps, request.body.events);
      const who = whoOf(deps, request);
      const rows = await logEvents(deps, await inTheNameOf(deps.store, who, request.body.events), who);
      return { stored: rows.map(receiptOf) };
    },
  );
}
