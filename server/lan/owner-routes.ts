// The owner's side of the door: codes, devices, customer links.
import { toString as qrText } from "qrcode";
import { z } from "zod";
import { ROLES } from "../access/access.ts";
import type { Deps } from "../deps.ts";
import { formOf, nameField, pageScope, sendPage } from "../http/plain-forms.ts";
import type { App } from "../http/types.ts";
import { sayBackups } from "../move/backup-log.ts";
import { toBuildRow } from "../routes/summary.ts";
import type { DoorList } from "./door-list.ts";
import { doorPage } from "./door-page.ts";
import { codePage, linkPage } from "./handout-pages.ts";
import { PAIR_PATH } from "./pair-routes.ts";
import type { Pairing } from "./pairing.ts";
import { RECORD_PATH } from "./record-routes.ts";
import { seenRoute } from "./seen-page.ts";

/** Addresses that devices are sent to, as they are now. */
export interface LanUrls {
  readonly secure: string;
  readonly secureByAddress: string | undefined;
  readonly plain: string;
  readonly plainByAddress: string | undefined;
  readonly fingerprint: string;
  readonly certificates: Certificates;
}

/** Lifetimes as ISO 8601, and what the server's certificate is for. */
export interface Certificates {
  readonly authority: { readonly from: string; readonly until: string };
  readonly server: { readonly from: string; readonly until: string; readonly renews: string; readonly names: readonly string[] };
}

const owner = { schema: { hide: true }, config: { needs: "owner" as const } };
const linkForm = z.strictObject({
  build: z.uuid(),
  days: z.coerce.number().int().min(1).max(365),
  door: z.enum(["plain", "secure"]).default("plain"),
});
const idParams = z.strictObject({ id: z.uuid() });
const ownerOf = (schema: { params: typeof idParams }) => ({ ...owner, schema: { hide: true, ...schema } });

export const qrSvg = (text: string) => qrText(text, { type: "svg", errorCorrectionLevel: "M", margin: 4 });

/** @param urls absent when the shop is open on this machine alone: no codes are made then */
export function ownerRoutes(app: App, deps: Deps, list: DoorList, pairing: Pairing, urls?: () => LanUrls): void {
  seenRoute(app);
  pageScope(app, (scope) => {
    scope.get("/door", owner, async (request, reply) => {
      const { builds } = await deps.builds.readAll(toBuildRow);
      return sendPage(
        reply,
        doorPage({
          devices: await list.devices(),
          links: await list.links(),
          builds,
          lan: urls?.(),
          now: Date.now(),
          own: request.principal?.device ?? "",
          backups: deps.keeping === undefined ? undefined : sayBackups((await deps.keeping()).backups),
        }),
      );
    });

    if (urls !== undefined)
      scope.post("/door/codes", owner, async (request, reply) => {
        const { role } = formOf(request, z.strictObject({ role: z.enum(ROLES) }));
        const { code } = await pairing.make(role);
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

    if (urls !== undefined)
      scope.post("/door/links", owner, async (request, reply) => {
        const { build, days, door } = formOf(request, linkForm);
        await deps.builds.read(build, () => undefined);
        const { link, token } = await list.makeLink(build, days, door);
        const { plain, plainByAddress, secure, secureByAddress } = urls();
        // By address first: not every phone finds a name of the shop's network.
        const bases = door === "plain" ? [plainByAddress, plain, secure] : [secureByAddress, secure];
        const links = bases.flatMap((base) => (base === undefined ? [] : [`${base}${RECORD_PATH.slice(1)}/${token}`]));
        return sendPage(reply, linkPage({ links, door, until: link.expiresAt, qr: await qrSvg(links[0] ?? "") }));
      });

    scope.post("/door/links/:id/revoke", ownerOf({ params: idParams }), async (request, reply) => {
      await list.revokeLink(request.params.id);
      return reply.redirect("/door", 303);
    });
  });
}
