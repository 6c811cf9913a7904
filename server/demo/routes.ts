// The page's offer of the demo build: start it, and ask how far it is.
import { demoStateSchema } from "../../shared/api/demo.ts";
import type { App } from "../http/types.ts";
import type { DemoMaker } from "./demo-maker.ts";

export function demoRoutes(app: App, maker: DemoMaker): void {
  app.get("/api/demo", { schema: { response: { 200: demoStateSchema } } }, async () => await maker.state());
  app.post("/api/demo", { schema: { response: { 202: demoStateSchema } } }, async (_request, reply) => {
    // Answered at once: making it takes longer than a request should; the page asks again.
    void maker.start();
    return reply.code(202).send(await maker.state());
  });
}
