// Who a request on the shop's network comes from: the paired device whose token its cookie holds.
import type { FastifyRequest } from "fastify";
import { type Access, hostName } from "../access/access.ts";
import type { Door, DoorList } from "./door-list.ts";
import { type MachineNames, namesHost } from "./names.ts";

/** The `__Host-` prefix has the browser insist on Secure, on this very host, on every path (RFC 6265bis section 4.1.3). */
export const COOKIES = { secure: "__Host-thoubook", plain: "thoubook_plain" } as const satisfies Record<Door, string>;

const COOKIE_DAYS = 400;

export function cookieOptions(door: Door) {
  return { path: "/", httpOnly: true, secure: door === "secure", sameSite: "strict" as const, maxAge: COOKIE_DAYS * 86_400 };
}

export function lanAccess(door: Door, list: DoorList, names: () => MachineNames): Access {
  return {
    identify: async (request: FastifyRequest) => {
      const device = await list.deviceOf(request.cookies[COOKIES[door]], door);
      return device === undefined ? undefined : { role: device.role, device: device.id, name: device.name };
    },
    hostAllowed: (host) => namesHost(names(), hostName(host)),
    isIn: ({ device }) => list.isIn(device),
    onCutOff: (principal, listener) => list.onCutOff(principal.device, listener),
  };
}
