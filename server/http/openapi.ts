// The service described by itself, from the same schemas that check its requests.
import swagger from "@fastify/swagger";
import { jsonSchemaTransform } from "fastify-type-provider-zod";
import type { App } from "./types.ts";

export async function describeApi(app: App, version: string): Promise<void> {
  await app.register(swagger, {
    openapi: {
      openapi: "3.1.0",
      info: {
        title: "thoubook",
        version,
        description: "Builds, their logs of events, clips, photos and findings. Errors are {code, message} with a stable code.",
      },
    },
    transform: jsonSchemaTransform,
  });
  app.get("/api/openapi.json", { schema: { hide: true } }, async () => app.swagger());
}
