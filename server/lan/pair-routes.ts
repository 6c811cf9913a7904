// Pairing from the device's side: a page that takes the code, and the pass that it gets for it.
import { z } from "zod";
import type { Role } from "../access/access.ts";
import { ServiceError } from "../errors.ts";
import { formOf, nameField, pageScope, sendPage } from "../http/plain-forms.ts";
import { PAIRING_RATE } from "../http/rates.ts";
import type { App } from "../http/types.ts";
import type { Door, DoorList } from "./door-list.ts";
import { COOKIES, cookieOptions } from "./lan-access.ts";
import { plainIp } from "./names.ts";
import { pairPage } from "./pair-page.ts";
import type { Pairing } from "./pairing.ts";

export const PAIR_PATH = "/pair";
const MOST_CODE = 20;
const form = z.strictObject({ code: z.string().min(1).max(MOST_CODE), name: nameField });

/** Over plain http a pass can be copied on its way: it never makes an owner. */
const roleAt = (door: Door, role: Role): Role => (door === "plain" && role === "owner" ? "bench" : role);

export function pairRoutes(app: App, door: Door, pairing: Pairing, list: DoorList): void {
  pageScope(app, (scope) => {
    scope.get(PAIR_PATH, { schema: { hide: true }, config: { needs: "open" } }, async (request, reply) => {
      const { code } = request.query as { code?: unknown };
      const pairedAs = request.principal?.name;
      const page = pairPage({
        code: typeof code === "string" ? code.slice(0, MOST_CODE) : "",
        plain: door === "plain",
        ...(pairedAs === undefined ? {} : { pairedAs }),
      });
      return sendPage(reply, page);
    });

    scope.post(
      PAIR_PATH,
      { schema: { hide: true }, config: { needs: "open", rateLimit: PAIRING_RATE } },
      async (request, reply) => {
        const { code, name } = formOf(request, form);
        let role: Role;
        try {
          role = await pairing.redeem(code, plainIp(request.ip));
        } catch (error) {
          if (!(error instanceof ServiceError)) throw error;
          request.log.warn({ code: error.code }, "pairing refused");
          return sendPage(reply, pairPage({ code: "", plain: door === "plain", refusal: error.message }), error.statusCode);
        }
        const { device, token } = await list.pair(name, roleAt(door, role), door, request.cookies[COOKIES[door]]);
        request.log.info({ device: device.id, role: device.role, door }, "device paired");
        reply.setCookie(COOKIES[door], token, cookieOptions(door));
        return reply.redirect(door === "plain" ? "/book" : "/", 303);
      },
    );
  });
}
