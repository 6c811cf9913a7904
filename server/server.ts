// The process around the service: opens the shop's data, listens on this machine, stops cleanly.
import type { AddressInfo } from "node:net";
import { buildApp } from "./app.ts";
import { dataPaths } from "./data-dir.ts";
import type { DemoMaker } from "./demo/demo-maker.ts";
import type { Deps } from "./deps.ts";
import { ServiceError } from "./errors.ts";
import { styleRoute } from "./http/plain-forms.ts";
import { Keeper, type KeeperOptions } from "./keeping/keeper.ts";
import { DoorList } from "./lan/door-list.ts";
import { machineNames } from "./lan/names.ts";
import { ownerRoutes } from "./lan/owner-routes.ts";
import { Pairing } from "./lan/pairing.ts";
import { recordRoutes } from "./lan/record-routes.ts";
import { EVERY_ADDRESS, type Lan, startLan } from "./lan/start-lan.ts";
import { type OpenShopOptions, openShop } from "./open-shop.ts";

export interface ServeOptions extends OpenShopOptions {
  /** 0 takes any free port. */
  readonly port: number;
  /** Where backups go on a schedule. */
  readonly backups?: KeeperOptions["backups"];
  /** Told in one sentence of what the owner has to see to. */
  readonly tell?: (sentence: string) => void;
  /** Also open the shop to its network. */
  readonly lan?: LanChoice;
}

export interface LanChoice {
  readonly name: string;
  readonly nameConstraints: boolean;
  readonly newAuthority: boolean;
}

export interface Shop {
  readonly deps: Deps;
  readonly demo: DemoMaker;
  /** Address on this machine. */
  readonly url: string;
  readonly pairing: Pairing;
  readonly lan: Lan | undefined;
  close(): Promise<void>;
}

/**
 * Open the data folder and serve it on 127.0.0.1.
 * @throws DataInUse when another process has the folder; Error `EADDRINUSE` when the port is taken
 */
export async function startShop(options: ServeOptions): Promise<Shop> {
  const { dataDir, logger } = options;
  const { deps: shopDeps, data, demo, close: closeShop } = await openShop(options);
  const { backups, tell } = options;
  const keeper = new Keeper({
    dir: dataDir,
    logger,
    ...(backups === undefined ? {} : { backups }),
    ...(tell === undefined ? {} : { tell }),
  });
  const deps: Deps = { ...shopDeps, keeping: () => keeper.state() };
  const list = new DoorList(data.store.db, Date.now, () => data.reserve.spend());
  const pairing = new Pairing(data.store.db);
  let lan: Lan | undefined;
  const app = await buildApp(deps, {
    logger,
    demo,
    more: (own) => {
      styleRoute(own);
      ownerRoutes(own, deps, list, pairing, options.lan === undefined ? undefined : () => urlsOf(lan));
      recordRoutes(own, deps, list, "secure");
    },
  });
  const close = async () => {
    await Promise.all([app.close(), lan?.close(), keeper.close()]);
    await closeShop();
  };
  try {
    await app.listen({ host: "127.0.0.1", port: options.port });
    const port = (app.server.address() as AddressInfo).port;
    if (options.lan !== undefined) {
      const { name, nameConstraints, newAuthority } = options.lan;
      lan = await startLan({
        deps,
        list,
        pairing,
        logger,
        demo,
        nameConstraints,
        newAuthority,
        dir: dataPaths(dataDir).lan,
        host: EVERY_ADDRESS,
        // Neighbours of the port on this machine, so that one number has to be remembered.
        securePort: options.port === 0 ? 0 : port + 1,
        plainPort: options.port === 0 ? 0 : port + 2,
        names: () => machineNames(name),
        announce: true,
      });
    }
    await keeper.start();
    return { deps, demo, pairing, lan, url: `http://127.0.0.1:${port}`, close };
  } catch (error) {
    await close();
    throw error;
  }
}

function urlsOf(lan: Lan | undefined) {
  if (lan === undefined)
    throw new ServiceError("not_ready", "Expected the shop's network to be open for a code, got a start that is under way");
  return lan.urls();
}
