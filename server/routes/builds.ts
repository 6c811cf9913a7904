// Builds as wholes: list, open, summary, findings, export.

import { v7 } from "uuid";
import { stampEvent } from "../../extractors/bench/index.ts";
import {
  buildListSchema,
  buildParamsSchema,
  buildSummarySchema,
  findingsSchema,
  openBuildSchema,
} from "../../shared/api/builds.ts";
import { errorSchema } from "../../shared/api/errors.ts";
import { exportSchema } from "../../shared/events/events.ts";
import { DEMO_SPEC } from "../../shared/spec/demo-engine.ts";
import { logEvents } from "../builds/log.ts";
import { makeStamp } from "../builds/stamp.ts";
import { whoOf } from "../builds/who.ts";
import type { Deps } from "../deps.ts";
import { expected, ServiceError } from "../errors.ts";
import type { App } from "../http/types.ts";
import { exportJson } from "../move/export-build.ts";
import { toBuildRow, toSummary } from "./summary.ts";

const errors = { 400: errorSchema, 404: errorSchema, 409: errorSchema };

export function buildRoutes(app: App, deps: Deps): void {
  app.get("/api/builds", { schema: { response: { 200: buildListSchema } } }, async () => {
    const { builds, unreadable } = await deps.builds.readAll(toBuildRow);
    builds.sort((a, b) => (a.lastAt < b.lastAt ? 1 : -1));
    return { builds, ...(unreadable.length === 0 ? {} : { unreadable }) };
  });

  app.post(
    "/api/builds",
    { schema: { body: openBuildSchema, response: { 201: buildSummarySchema, ...errors } } },
    async (request, reply) => {
      const { id, name, customer, spec, demo, device, by } = request.body;
      const sheet = spec ?? (demo === true ? DEMO_SPEC : undefined);
      if (sheet === undefined) throw new ServiceError("invalid_request", expected("a spec sheet", "spec", "none"));
      const build = id ?? v7();
      const who = whoOf(deps, request);
      const stamp = await makeStamp(deps.store, build, { device, by }, who);
      const data = { name, ...(customer === undefined ? {} : { customer }), spec: sheet };
      await logEvents(deps, [stampEvent(stamp, "build.opened", data)], who);
      return reply.code(201).send(await deps.builds.read(build, toSummary));
    },
  );

  app.get(
    "/api/builds/:build",
    { schema: { params: buildParamsSchema, response: { 200: buildSummarySchema, ...errors } } },
    async (request) => deps.builds.read(request.params.build, toSummary),
  );

  app.get(
    "/api/builds/:build/findings",
    { schema: { params: buildParamsSchema, response: { 200: findingsSchema, ...errors } } },
    async (request) => deps.builds.read(request.params.build, ({ head, findings }) => ({ head, findings: findings() })),
  );

  app.get(
    "/api/builds/:build/export",
    { schema: { params: buildParamsSchema, response: { 200: exportSchema, ...errors } } },
    async (request, reply) => {
      const { build } = request.params;
      const text = await exportJson(deps.store, build);
      reply.header("content-disposition", `attachment; filename="build-${build}.json"`);
      return reply.type("application/json; charset=utf-8").send(text as never);
    },
  );
}
