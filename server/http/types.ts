// The Fastify instance the routes are written against, and what requests carry beside Fastify's own.
import type { FastifyBaseLogger, FastifyInstance, RawServerBase } from "fastify";
import type { ZodTypeProvider } from "fastify-type-provider-zod";
import type { Need, Principal } from "../access/access.ts";

export type App = FastifyInstance<
  RawServerBase,
  import("node:http").IncomingMessage,
  import("node:http").ServerResponse,
  FastifyBaseLogger,
  ZodTypeProvider
>;

declare module "fastify" {
  interface FastifyRequest {
    principal: Principal | null;
  }
  interface FastifyContextConfig {
    /** Who may call the route; without it, viewers read and the bench writes. */
    needs?: Need;
    /** The route itself ends what it sends when its caller is cut off. */
    endsItself?: boolean;
    /** Largest body in bytes, checked against the header before any of it is read. */
    maxBytes?: number;
  }
}
