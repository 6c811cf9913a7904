// GET /api/health: is the service there, and can it hear. GET /api/me: who it takes the caller for.
import { callerSchema, healthSchema } from "../../shared/api/builds.ts";
import { errorSchema } from "../../shared/api/errors.ts";
import type { Deps } from "../deps.ts";
import { ServiceError } from "../errors.ts";
import type { App } from "../http/types.ts";

export function healthRoutes(app: App, deps: Deps, version: string): void {
  app.get("/api/health", { schema: { response: { 200: healthSchema } }, config: { needs: "open" } }, async () => ({
    status: "ok" as const,
    version,
    shop: deps.shop,
    hearing: deps.hearing.state(),
    time: new Date().toISOString(),
  }));

  app.get("/api/me", { schema: { response: { 200: callerSchema, 401: errorSchema } } }, async ({ principal }) => {
    if (principal === null) throw new ServiceError("not_paired", "Expected a paired device for this request, got none");
    return principal;
  });
}
