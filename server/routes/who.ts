// In whose name the server writes when a request does not say.
import type { FastifyRequest } from "fastify";

export function whoOf(request: FastifyRequest): { device: string; by: string } {
  const principal = request.principal;
  return { device: principal?.device ?? "shop", by: principal === null || principal.device === "shop" ? "shop" : principal.name };
}
