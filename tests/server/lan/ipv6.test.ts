// The doors by version 6 of the internet protocol as well as by version 4, over real sockets.
import { request } from "node:https";
import type { AddressInfo } from "node:net";
import { networkInterfaces } from "node:os";
import { join } from "node:path";
import { expect, it } from "vitest";
import { DoorList } from "../../../server/lan/door-list.ts";
import { machineNames } from "../../../server/lan/names.ts";
import { Pairing } from "../../../server/lan/pairing.ts";
import { EVERY_ADDRESS, startLan } from "../../../server/lan/start-lan.ts";
import { atEnd, bootShop } from "../helper.ts";

const ADDRESS_6 = "fd00:7::20";
const interfaces = (...addresses: string[]) => ({
  eth0: addresses.map((address) => ({ address, internal: false, family: address.includes(":") ? "IPv6" : "IPv4" }) as never),
});

async function open(...addresses: string[]) {
  const shop = await bootShop();
  const { db } = shop.data.store;
  const lan = await startLan({
    deps: shop.deps,
    list: new DoorList(db),
    pairing: new Pairing(db),
    dir: join(shop.data.dir, "lan"),
    host: EVERY_ADDRESS,
    securePort: 0,
    plainPort: 0,
    nameConstraints: true,
    names: () => machineNames("thoubook.local", interfaces(...addresses), "Shop-PC"),
    announce: false,
  });
  atEnd(() => lan.close());
  return { lan, port: (lan.secure.server.address() as AddressInfo).port };
}

const hasIpv6 = Object.values(networkInterfaces()).some((list) => list?.some(({ address }) => address === "::1"));

it.runIf(hasIpv6)(
  "answers at both, with a certificate for the address asked for, and knows who tries to pair from which",
  async () => {
    const { lan, port } = await open("192.168.7.20", ADDRESS_6);
    const ca = lan.authority.certificate.toString("pem");
    const asked = (host: string, as: string) =>
      new Promise<number | undefined>((resolve, reject) => {
        // No server name: the client checks the certificate against the address it connected to.
        request({ host, port, ca, path: "/api/health", agent: false, headers: { host: as } }, (answer) => {
          answer.resume();
          resolve(answer.statusCode);
        })
          .on("error", reject)
          .end();
      });
    expect(await asked("::1", "[::1]")).toBe(200);
    expect(await asked("127.0.0.1", "127.0.0.1")).toBe(200);
    expect(await asked("::1", `[${ADDRESS_6}]:${port}`)).toBe(200);
    expect(await asked("::1", "[fd00:7::21]")).toBe(403);
  },
);

it.each([
  [["192.168.7.20", ADDRESS_6], "192.168.7.20"],
  [[ADDRESS_6], `[${ADDRESS_6}]`],
])("sends devices to an address they can write: of %j to %s", async (addresses, host) => {
  const { lan, port } = await open(...addresses);
  expect(lan.urls().secureByAddress).toBe(`https://${host}:${port}/`);
  expect(new URL(lan.urls().plainByAddress ?? "").hostname).toBe(host);
});
