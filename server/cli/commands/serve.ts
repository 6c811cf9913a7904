// `thoubook serve`: runs until it is told to stop; the address goes to standard error.
import { progressSayer, sayDemo } from "../../demo/say.ts";
import { makeLogger } from "../../http/log.ts";
import { DEFAULT_NAME, isDnsName } from "../../lan/names.ts";
import { readBackupLog, sayBackupAge } from "../../move/backup-log.ts";
import { openSenses } from "../../senses.ts";
import { startShop } from "../../server.ts";
import { BAD_ARGUMENTS, DONE, FAILED, orSay, say } from "../output.ts";
import { closeToOthers } from "../private.ts";
import { sayLan } from "../say-lan.ts";

type Options = {
  readonly port: string;
  readonly data: string;
  readonly database?: string;
  readonly demo?: boolean;
  readonly asItIs?: boolean;
  readonly log: string;
  readonly backups?: string;
  readonly backupHours: string;
  readonly lateEar?: boolean;
  readonly lan?: boolean;
  readonly name?: string;
  readonly nameConstraints: boolean;
  readonly newAuthority?: boolean;
};

/** What a timer can wait for (2^31 ms), in whole hours. */
const MOST_HOURS = 596;
const LEVELS = ["debug", "info", "warn", "error", "silent"];

export async function run(_positional: unknown[], options: Options): Promise<number> {
  const port = Number(options.port);
  if (!/^\d+$/.test(options.port) || port > 65_533)
    return refuse(`Expected a port of 0 to 65533 for --port, got ${options.port}`);
  if (!LEVELS.includes(options.log)) return refuse(`Expected one of ${LEVELS.join(", ")} for --log, got ${options.log}`);
  if (options.database !== undefined)
    return refuse(
      `Expected no --database yet, got ${scheme(options.database)}: only the file in the data folder is available so far`,
    );
  const everyHours = Number(options.backupHours);
  if (!(everyHours >= 1 && everyHours <= MOST_HOURS))
    return refuse(`Expected 1 to ${MOST_HOURS} hours for --backup-hours, got ${options.backupHours}`);
  const name = options.name ?? DEFAULT_NAME;
  if (!isDnsName(name)) return refuse(`Expected a name like ${DEFAULT_NAME} for --name, got ${name}`);
  return await orSay(async () => {
    const logger = makeLogger(options.log);
    const stop = stopSignal();
    await closeToOthers(options.data);
    const shop = await startShop({
      dataDir: options.data,
      port,
      logger,
      asIs: options.asItIs === true,
      senses: openSenses(options.lateEar === true),
      tell: say,
      ...(options.backups === undefined ? {} : { backups: { to: options.backups, everyHours } }),
      ...(options.lan === true
        ? { lan: { name, nameConstraints: options.nameConstraints, newAuthority: options.newAuthority === true } }
        : {}),
    }).catch((error: NodeJS.ErrnoException) => {
      if (error.code !== "EADDRINUSE") throw error;
      // With --lan it may be one of the two after it.
      const taken = (error as { port?: number }).port ?? port;
      say(`Expected port ${taken} to be free, got one in use: choose another with --port`);
      return undefined;
    });
    if (shop === undefined) return FAILED;
    say(`The shop is open at ${shop.url}/ (data in ${options.data}); stop it with Ctrl-C.`);
    say(sayBackupAge(await readBackupLog(options.data)));
    if (shop.lan !== undefined) await sayLan(shop, shop.lan);
    if (options.demo === true)
      await Promise.race([shop.demo.start(progressSayer(say)).then((state) => say(sayDemo(state))), stop]);
    else if ((await shop.deps.store.heads()).length === 0)
      say("Nothing is in the book yet: the page offers the demo build, and --demo makes it at once.");
    await stop;
    say("Stopping: requests under way are ended first.");
    await shop.close();
    return DONE;
  });
}

function refuse(sentence: string): number {
  say(sentence);
  return BAD_ARGUMENTS;
}

/** A database address may hold a password: only its scheme is repeated. */
const scheme = (url: string) => `${url.split(":", 1)[0] ?? ""}:`;

/** Resolves at the first SIGINT or SIGTERM; a second one ends the process at once. */
function stopSignal(): Promise<void> {
  return new Promise((resolve) => {
    for (const signal of ["SIGINT", "SIGTERM"] as const) process.once(signal, () => resolve());
  });
}
