// Opens the shop to its network: authority and certificate, the secure listener, the plain one, and the watch on addresses.
import type { Server } from "node:https";
import type { AddressInfo } from "node:net";
import { isIPv4 } from "node:net";
import { join } from "node:path";
import type { Logger } from "pino";
import { buildApp } from "../app.ts";
import type { DemoMaker } from "../demo/demo-maker.ts";
import type { Deps } from "../deps.ts";
import { PlainError } from "../errors.ts";
import { styleRoute } from "../http/plain-forms.ts";
import type { App } from "../http/types.ts";
import { type Announcer, startAnnouncer } from "./announcer.ts";
import { type Authority, openAuthority } from "./authority.ts";
import type { DoorList } from "./door-list.ts";
import { lanAccess } from "./lan-access.ts";
import { type Leaf, openLeaf } from "./leaf.ts";
import type { MachineNames } from "./names.ts";
import { type LanUrls, ownerRoutes } from "./owner-routes.ts";
import { PAIR_PATH, pairRoutes } from "./pair-routes.ts";
import type { Pairing } from "./pairing.ts";
import { plainApp } from "./plain-app.ts";
import { recordRoutes } from "./record-routes.ts";

const WATCH_MS = 30_000;

export interface LanOptions {
  readonly deps: Deps;
  readonly list: DoorList;
  readonly pairing: Pairing;
  readonly logger?: Logger;
  /** Offers the demo build on the screens, where it is to be offered. */
  readonly demo?: DemoMaker;
  /** Folder of the authority and the server's certificate. */
  readonly dir: string;
  /** Address to listen at: all of the machine's, unless a test keeps it to itself. */
  readonly host: string;
  readonly securePort: number;
  readonly plainPort: number;
  readonly nameConstraints: boolean;
  /** The machine's names and addresses, asked again and again. */
  readonly names: () => MachineNames;
  /** Answer for the name by multicast. */
  readonly announce: boolean;
}

export interface Lan {
  readonly authority: Authority;
  readonly urls: () => LanUrls;
  readonly secure: App;
  readonly plain: App;
  /** Look at the addresses now; gives whether the certificate was made anew. */
  check(): Promise<boolean>;
  close(): Promise<void>;
}

/** @throws PlainError when the kept authority may not vouch for the name asked for */
export async function startLan(options: LanOptions): Promise<Lan> {
  const { deps, list, pairing, logger } = options;
  const first = options.names();
  const authority = await openAuthority(options.dir, { dns: first.dns, nameConstraints: options.nameConstraints });
  if (authority.dns !== undefined && !authority.dns.includes(first.canonical))
    throw new PlainError(
      `Expected a name this shop's authority may vouch for (${authority.dns.join(", ")}) for --name, got ${first.canonical}: keep to one of them, or move ${join(options.dir)} away and trust a new authority on every device`,
    );
  let leaf: Leaf = await openLeaf(options.dir, authority, first);
  const names = () => leaf.names;
  const base = logger === undefined ? {} : { logger };
  const secure = await buildApp(
    { ...deps, access: { ...lanAccess("secure", list, names), pairingPage: PAIR_PATH } },
    {
      ...base,
      ...(options.demo === undefined ? {} : { demo: options.demo }),
      https: { key: leaf.keyPem, cert: leaf.certificatePem },
      more: (app) => {
        styleRoute(app);
        pairRoutes(app, "secure", pairing, list);
        ownerRoutes(app, deps, list, pairing, urls);
        recordRoutes(app, deps, list);
      },
    },
  );
  const plainDeps = { ...deps, access: { ...lanAccess("plain", list, names), pairingPage: PAIR_PATH } };
  const plain = await plainApp(
    {
      deps: plainDeps,
      list,
      pairing,
      urls,
      canonical: first.canonical,
      authority: new Uint8Array(authority.certificate.rawData),
    },
    base,
  );
  await secure.listen({ host: options.host, port: options.securePort });
  await plain.listen({ host: options.host, port: options.plainPort });
  let announcer: Announcer | undefined;
  if (options.announce)
    announcer = startAnnouncer(names, (error) =>
      logger?.warn({ reason: error.message }, "the name cannot be announced here: use the address"),
    );

  function urls(): LanUrls {
    const address = leaf.names.ips.find((ip) => isIPv4(ip) && !ip.startsWith("127."));
    const at = (scheme: string, host: string, app: App) => `${scheme}://${host}:${(app.server.address() as AddressInfo).port}/`;
    const { canonical } = leaf.names;
    return {
      secure: at("https", canonical, secure),
      secureByAddress: address === undefined ? undefined : at("https", address, secure),
      plain: at("http", canonical, plain),
      plainByAddress: address === undefined ? undefined : at("http", address, plain),
      fingerprint: authority.fingerprint,
    };
  }

  const check = async () => {
    const next = await openLeaf(options.dir, authority, options.names());
    leaf = next;
    if (!next.renewed) return false;
    (secure.server as unknown as Server).setSecureContext({ key: next.keyPem, cert: next.certificatePem, minVersion: "TLSv1.2" });
    announcer?.announce();
    logger?.info({ addresses: next.names.ips }, "certificate made anew for changed addresses; the authority is the same");
    return true;
  };
  const watch = setInterval(() => {
    check().catch((error: Error) => logger?.error({ err: error }, "the certificate could not be made anew"));
  }, WATCH_MS);
  watch.unref();

  const close = async () => {
    clearInterval(watch);
    await Promise.all([secure.close(), plain.close(), announcer?.close()]);
  };
  return { authority, urls, secure, plain, check, close };
}
