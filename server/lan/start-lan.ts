// Opens the shop to its network: authority and certificate, the secure listener, the plain one, and the watch on addresses.
import { existsSync } from "node:fs";
import { rename } from "node:fs/promises";
import type { Server } from "node:https";
import type { AddressInfo } from "node:net";
import { isIPv4 } from "node:net";
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
import { type Leaf, leafTimes, openLeaf } from "./leaf.ts";
import { isLoopback, type MachineNames, urlHost } from "./names.ts";
import { type LanUrls, ownerRoutes } from "./owner-routes.ts";
import { PAIR_PATH, pairRoutes } from "./pair-routes.ts";
import type { Pairing } from "./pairing.ts";
import { plainApp } from "./plain-app.ts";
import { recordRoutes } from "./record-routes.ts";

const WATCH_MS = 30_000;
/** All of the machine's addresses, of version 6 and of version 4. */
export const EVERY_ADDRESS = "::";
/** How a machine says that it has no version 6 at all. */
const NO_IPV6: ReadonlySet<string> = new Set(["EAFNOSUPPORT", "EADDRNOTAVAIL"]);

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
  /** Put the authority that is there aside and make another. */
  readonly newAuthority?: boolean;
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

async function listenAt(app: App, host: string, port: number): Promise<void> {
  try {
    await app.listen({ host, port });
  } catch (error) {
    if (host !== EVERY_ADDRESS || !NO_IPV6.has(String((error as NodeJS.ErrnoException).code))) throw error;
    await app.listen({ host: "0.0.0.0", port });
  }
}

/** @throws PlainError when the kept authority may not vouch for the name asked for */
export async function startLan(options: LanOptions): Promise<Lan> {
  const { deps, list, pairing, logger } = options;
  const first = options.names();
  if (options.newAuthority === true && existsSync(options.dir)) await rename(options.dir, `${options.dir}-before-${Date.now()}`);
  const trusted = options.newAuthority !== true && (await list.everTrusted());
  const authority = await openAuthority(options.dir, { dns: first.dns, nameConstraints: options.nameConstraints, trusted });
  if (authority.dns !== undefined && !authority.dns.includes(first.canonical))
    throw new PlainError(
      `Expected a name this shop's authority may vouch for (${authority.dns.join(", ")}) for --name, got ${first.canonical}: keep to one of them, or start once with --new-authority, which every device has to trust anew`,
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
        recordRoutes(app, deps, list, "secure");
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
  try {
    await listenAt(secure, options.host, options.securePort);
    await listenAt(plain, options.host, options.plainPort);
  } catch (error) {
    // A door that is half open would keep a process alive that nobody can stop any more.
    await Promise.all([secure.close(), plain.close()]);
    throw error;
  }
  let announcer: Announcer | undefined;
  if (options.announce)
    announcer = startAnnouncer(options.names, (error) =>
      logger?.warn({ reason: error.message }, "the name cannot be announced here: use the address"),
    );

  function urls(): LanUrls {
    const outside = leaf.names.ips.filter((ip) => !isLoopback(ip));
    const address = outside.find(isIPv4) ?? outside[0];
    const at = (scheme: string, host: string, app: App) => `${scheme}://${host}:${(app.server.address() as AddressInfo).port}/`;
    const { canonical } = leaf.names;
    return {
      secure: at("https", canonical, secure),
      secureByAddress: address === undefined ? undefined : at("https", urlHost(address), secure),
      plain: at("http", canonical, plain),
      plainByAddress: address === undefined ? undefined : at("http", urlHost(address), plain),
      fingerprint: authority.fingerprint,
      certificates: {
        authority: { from: authority.certificate.notBefore.toISOString(), until: authority.certificate.notAfter.toISOString() },
        server: { ...leafTimes(leaf), names: [...leaf.names.dns, ...leaf.names.ips] },
      },
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
