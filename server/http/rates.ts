// How often one address may do what costs much. Generous: a whole shop may stand behind one address.
import rateLimit from "@fastify/rate-limit";
import { ServiceError } from "../errors.ts";
import type { App } from "./types.ts";

export const UPLOAD_RATE = { max: 600, timeWindow: "1 minute" } as const;
export const PAIRING_RATE = { max: 10, timeWindow: "1 minute" } as const;
export const RECORD_RATE = { max: 600, timeWindow: "1 minute" } as const;

/** Routes opt in by `config.rateLimit`. */
export async function limitRates(app: App): Promise<void> {
  await app.register(rateLimit, {
    global: false,
    errorResponseBuilder: (_request, { max, after }) =>
      new ServiceError(
        "too_many_requests",
        `Expected at most ${max} such requests from one address, got more: try again in ${after}`,
      ),
  });
}
