// The shop opened to a network of its own: both listeners on loopback, called by the names a phone would use.
import { request as httpRequest, type IncomingHttpHeaders } from "node:http";
import { type Agent, request as httpsRequest } from "node:https";
import type { AddressInfo } from "node:net";
import { join } from "node:path";
import { servedFiles } from "../../../extractors/hearing/node/index.ts";
import { DoorList } from "../../../server/lan/door-list.ts";
import { machineNames } from "../../../server/lan/names.ts";
import { Pairing } from "../../../server/lan/pairing.ts";
import { type Lan, startLan } from "../../../server/lan/start-lan.ts";
import { atEnd, bootShop, openDemoBuild, type TestShop } from "../helper.ts";

export const NAME = "thoubook.local";
export const ADDRESS = "192.168.7.20";

export interface TestLan {
  readonly shop: TestShop;
  readonly lan: Lan;
  readonly list: DoorList;
  readonly pairing: Pairing;
  readonly build: string;
  readonly securePort: number;
  readonly plainPort: number;
  readonly ca: string;
  readonly dir: string;
  /** Move to another address, as a router may have it. */
  moveTo(address: string): void;
}

export async function bootLan(
  options: { webDir?: string; now?: () => number; logger?: import("pino").Logger } = {},
): Promise<TestLan> {
  const shop = await bootShop(
    options.webDir === undefined ? {} : { deps: { webDir: options.webDir, modelFiles: servedFiles() } },
  );
  const build = await openDemoBuild(shop.app);
  const list = new DoorList(shop.data.store.db, options.now);
  const pairing = new Pairing(shop.data.store.db, options.now);
  let address = ADDRESS;
  const dir = join(shop.data.dir, "lan");
  const lan = await startLan({
    deps: shop.deps,
    list,
    pairing,
    dir,
    host: "127.0.0.1",
    securePort: 0,
    plainPort: 0,
    nameConstraints: true,
    names: () => machineNames(NAME, { eth0: [{ address, internal: false, family: "IPv4" } as never] }, "Shop-PC"),
    announce: false,
    ...(options.logger === undefined ? {} : { logger: options.logger }),
  });
  atEnd(() => lan.close());
  const portOf = (app: Lan["secure"]) => (app.server.address() as AddressInfo).port;
  return {
    shop,
    lan,
    list,
    pairing,
    build,
    dir,
    securePort: portOf(lan.secure),
    plainPort: portOf(lan.plain),
    ca: lan.authority.certificate.toString("pem"),
    moveTo: (next) => {
      address = next;
    },
  };
}

export interface Ask {
  readonly door: "secure" | "plain";
  readonly path: string;
  readonly method?: string;
  readonly headers?: Readonly<Record<string, string | number>>;
  readonly body?: string | Buffer;
  /** The name in the address bar; the shop's own by default. */
  readonly host?: string;
  /** Keeps connections between asks; without one each ask opens its own. */
  readonly agent?: Agent;
}

export interface Answer {
  readonly status: number;
  readonly headers: IncomingHttpHeaders;
  readonly text: string;
  /** Code of the error answer, where it is one. */
  readonly code: string | undefined;
}

/** Ask over a real socket, as a client that verifies the certificate. The path goes out exactly as written. */
export function ask(to: TestLan, { door, path, method = "GET", headers = {}, body, host = NAME, agent }: Ask): Promise<Answer> {
  const port = door === "secure" ? to.securePort : to.plainPort;
  const options = {
    host: "127.0.0.1",
    port,
    path,
    method,
    agent: agent ?? (false as const),
    headers: { host: `${host}:${port}`, ...headers },
  };
  return new Promise((resolve, reject) => {
    const request = door === "secure" ? httpsRequest({ ...options, ca: to.ca, servername: NAME }) : httpRequest(options);
    request.on("response", (response) => {
      let text = "";
      response.setEncoding("utf8").on("data", (chunk: string) => {
        text += chunk;
      });
      response.on("end", () =>
        resolve({ status: response.statusCode ?? 0, headers: response.headers, text, code: codeOf(text) }),
      );
      response.on("error", reject);
    });
    request.on("error", reject);
    request.end(body);
  });
}

function codeOf(text: string): string | undefined {
  try {
    return (JSON.parse(text) as { code?: string }).code;
  } catch {
    return undefined;
  }
}

const FORM = { "content-type": "application/x-www-form-urlencoded" };
export const form = (fields: Record<string, string>) => ({
  method: "POST",
  headers: FORM,
  body: new URLSearchParams(fields).toString(),
});
export const json = (value: unknown) => ({
  method: "POST",
  headers: { "content-type": "application/json" },
  body: JSON.stringify(value),
});

/** Pair a device through the page, as a phone does; gives the cookie it got. */
export async function pair(
  to: TestLan,
  role: "owner" | "bench" | "viewer",
  door: "secure" | "plain" = "secure",
  name = "Phone",
): Promise<string> {
  const { code } = await to.pairing.make(role);
  const answer = await ask(to, { door, path: "/pair", ...form({ code, name }) });
  const cookie = answer.headers["set-cookie"]?.[0] ?? "";
  if (answer.status !== 303 || cookie === "") throw new Error(`Expected to be paired, got ${answer.status} ${answer.text}`);
  return cookie.split(";", 1)[0] ?? "";
}
