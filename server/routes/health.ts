// GET /api/health: is the service there, and can it hear.
import { healthSchema } from "../../shared/api/builds.ts";
import type { Deps } from "../deps.ts";
import type { App } from "../http/types.ts";

export function healthRoutes(app: App, deps: Deps, version: string): void {
  app.get("/api/health", { schema: { response: { 200: healthSchema } }, config: { needs: "open" } }, async () => ({
    status: "ok" as const,
    version,
    hearing: deps.hearing.state(),
    time: new Date().toISOString(),
  }));
}
