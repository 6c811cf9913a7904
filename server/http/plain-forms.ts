// Pages without script: forms as text, answers as pages. Kept in a scope of its own, so that the API takes no such forms.
import type { FastifyReply, FastifyRequest } from "fastify";
import { z } from "zod";
import { ServiceError } from "../errors.ts";
import { STYLE, STYLE_PATH } from "../lan/html.ts";
import type { App } from "./types.ts";

const MOST_BYTES = 16 * 1024;

/** Add routes that take posted forms. */
export function pageScope(app: App, routes: (scope: App) => void): void {
  app.register(async (plugin) => {
    const scope = plugin as unknown as App;
    scope.addContentTypeParser(
      "application/x-www-form-urlencoded",
      { parseAs: "string", bodyLimit: MOST_BYTES },
      (_request, body, done) => {
        done(null, Object.fromEntries(new URLSearchParams(String(body))));
      },
    );
    routes(scope);
  });
}

/** The style sheet of pages without script. */
export function styleRoute(app: App): void {
  app.get(STYLE_PATH, { schema: { hide: true }, config: { needs: "open" } }, async (_request, reply) =>
    reply.type("text/css; charset=utf-8").header("cache-control", "no-cache").send(STYLE),
  );
}

export function sendPage(reply: FastifyReply, text: string, status = 200): FastifyReply {
  return reply.code(status).type("text/html; charset=utf-8").header("cache-control", "no-store").send(text);
}

/** A posted form's fields. @throws ServiceError `invalid_request` */
export function formOf<T>(request: FastifyRequest, schema: z.ZodType<T>): T {
  const result = schema.safeParse(request.body ?? {});
  if (result.success) return result.data;
  const name = result.error.issues[0]?.path.join(".") || "the form";
  throw new ServiceError("invalid_request", `Expected a valid value for ${name}, got another`);
}

/** A device's name: no brackets, which hold the person at it in the log, and nothing that does not show. */
export const nameField = z
  .string()
  .trim()
  .min(1)
  .max(60)
  .regex(/^[^()\p{C}]+$/u, "Expected letters, digits and signs without brackets for the name, got others");
