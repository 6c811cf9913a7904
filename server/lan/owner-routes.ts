// The owner's side of the door: codes, devices, customer links.
import { toString as qrText } from "qrcode";
import { z } from "zod";
import { ROLES } from "../access/access.ts";
import type { Deps } from "../deps.ts";
import { formOf, nameField, pageScope, sendPage } from "../http/plain-forms.ts";
import type { App } from "../http/types.ts";
import { toBuildRow } from "../routes/summary.ts";
import type { DoorList } from "./door-list.ts";
import { codePage, doorPage, linkPage } from "./door-page.ts";
import { PAIR_PATH } from "./pair-routes.ts";
import type { Pairing } from "./pairing.ts";
import { RECORD_PATH } from "./record-routes.ts";

/** Addresses that devices are sent to, as they are now. */
export interface LanUrls {
  readonly secure: string;
  readonly secureByAddress: string | undefined;
  readonly plain: string;
  readonly plainByAddress: string | undefined;
  readonly fingerprint: string;
}

const owner = { schema: { hide: true }, config: { needs: "owner" as const } };
const idParams = z.strictObject({ id: z.uuid() });
const ownerOf = (schema: { params: typeof idParams }) => ({ ...owner, schema: { hide: true, ...schema } });

export const qrSvg = (text: string) => qrText(text, { type: "svg", errorCorrectionLevel: "M", margin: 4 });

/** @param urls absent when the shop is open on this machine alone: no codes are made then */
export function ownerRoutes(app: App, deps: Deps, list: DoorList, pairing: Pairing, urls?: () => LanUrls): void {
  pageScope(app, (scope) => {
    scope.get("/door", owner, async (_request, reply) => {
      const { builds } = await deps.builds.readAll(toBuildRow);
      return sendPage(
        reply,
        doorPage({ devices: await list.devices(), links: await list.links(), builds, fingerprint: urls?.().fingerprint }),
      );
    });

    if (urls !== undefined)
      scope.post("/door/codes", owner, async (request, reply) => {
        const { role } = formOf(request, z.strictObject({ role: z.enum(ROLES) }));
        const { code } = pairing.make(role);
        const { secure, secureByAddress, plain } = urls();
        const pairUrl = `${secure}${PAIR_PATH.slice(1)}?code=${code}`;
        const page = codePage({
          code,
          role,
          pairUrl,
          explainUrl: plain,
          byAddress: secureByAddress === undefined ? undefined : `${secureByAddress}${PAIR_PATH.slice(1)}`,
          pairQr: await qrSvg(pairUrl),
          explainQr: await qrSvg(plain),
        });
        return sendPage(reply, page);
      });

    scope.post("/door/devices/:id/name", ownerOf({ params: idParams }), async (request, reply) => {
      await list.rename(request.params.id, formOf(request, z.strictObject({ name: nameField })).name);
      return reply.redirect("/door", 303);
    });

    scope.post("/door/devices/:id/cut-off", ownerOf({ params: idParams }), async (request, reply) => {
      await list.cutOff(request.params.id);
      request.log.info({ device: request.params.id }, "device cut off");
      return reply.redirect("/door", 303);
    });

    scope.post("/door/links", owner, async (request, reply) => {
      const { build, days } = formOf(request, z.strictObject({ build: z.uuid(), days: z.coerce.number().int().min(1).max(365) }));
      await deps.builds.read(build, () => undefined);
      const { link, token } = await list.makeLink(build, days);
      const base = urls?.().secure ?? `${request.protocol}://${request.host}/`;
      return sendPage(reply, linkPage(`${base}${RECORD_PATH.slice(1)}/${token}`, link.expiresAt));
    });

    scope.post("/door/links/:id/revoke", ownerOf({ params: idParams }), async (request, reply) => {
      await list.revokeLink(request.params.id);
      return reply.redirect("/door", 303);
    });
  });
}
