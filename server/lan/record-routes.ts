// A customer's link: one build's record and its pictures, nothing else. The link's token stands in the address and nowhere in the log.
import type { FastifyReply } from "fastify";
import { z } from "zod";
import { sha256Schema } from "../../shared/events/events.ts";
import type { Deps } from "../deps.ts";
import { expected, ServiceError } from "../errors.ts";
import { sendPage } from "../http/plain-forms.ts";
import { RECORD_RATE } from "../http/rates.ts";
import type { App } from "../http/types.ts";
import { PICTURES, pictureOf } from "../photos/pictures.ts";
import type { CustomerLink, Door, DoorList } from "./door-list.ts";
import { recordPage } from "./record-page.ts";

export const RECORD_PATH = "/record";
const config = { needs: "open" as const, rateLimit: RECORD_RATE };
const tokenParams = z.strictObject({ token: z.string().max(100) });
const photoParams = tokenParams.extend({ sha256: sha256Schema });

/** @param door where these routes are: a link made for secure devices opens nothing at the plain door */
export function recordRoutes(app: App, deps: Deps, list: DoorList, door: Door): void {
  /** The link of this request; what is sent under it ends when it is revoked. */
  const linkOf = async (token: string, reply: FastifyReply): Promise<CustomerLink> => {
    const link = await list.linkOf(token, door);
    reply.raw.once(
      "close",
      list.onCutOff(link.id, () => reply.raw.destroy()),
    );
    return link;
  };

  app.get(`${RECORD_PATH}/:token`, { config, schema: { hide: true, params: tokenParams } }, async (request, reply) => {
    const { token } = request.params;
    const link = await linkOf(token, reply);
    const photoBase = `${RECORD_PATH}/${token}/photos`;
    reply.header("referrer-policy", "no-referrer");
    return sendPage(reply, await deps.builds.read(link.build, (opened) => recordPage(opened, photoBase, link.expiresAt)));
  });

  for (const size of PICTURES)
    app.get(
      `${RECORD_PATH}/:token/photos/:sha256/${size}`,
      { config, schema: { hide: true, params: photoParams } },
      async (request, reply) => {
        const { token, sha256 } = request.params;
        const link = await linkOf(token, reply);
        if (!(await deps.store.blobInBuild(sha256, link.build)))
          throw new ServiceError("unknown_blob", expected("a photo of this record", "sha256", sha256));
        return reply
          .type("image/webp")
          .header("cache-control", "no-store")
          .send((await pictureOf(deps, sha256, size)) as never);
      },
    );
}
