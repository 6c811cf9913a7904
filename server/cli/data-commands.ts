// The commands that work on a shop's data folder: serving it, checking it, moving it.
import { DEFAULT_DATA_DIR } from "../data-dir.ts";
import type { CliCommand } from "./commands.ts";

const DATA = ["--data <dir>", "folder of the shop's data", DEFAULT_DATA_DIR] as const;

export const DATA_COMMANDS: readonly CliCommand[] = [
  {
    name: "serve",
    description: "Serve the shop on this machine, or with --lan to paired devices in the shop too",
    options: (c) =>
      c
        .option("--port <n>", "port on this machine; with --lan also the two after it", "4380")
        .option(...DATA)
        .option("--database <url>", "another database than the file in the data folder")
        .option("--as-it-is", "go on although the logs have lost entries that this folder once held")
        .option("--backups <dir>", "back up into this folder on a schedule; clips and photos are copied once")
        .option("--backup-hours <n>", "hours between two backups", "24")
        .option("--demo", "make the demo build where there is none, and say its summary")
        .option("--late-ear", "load what hears clips at the first one: for a small machine whose phones hear for themselves")
        .option("--lan", "let paired devices in over HTTPS, with a certificate authority of the shop's own")
        .option("--name <name>", "with --lan: the name devices call this machine by")
        .option("--no-name-constraints", "with --lan: make the authority without limits on names")
        .option("--new-authority", "with --lan: put the authority aside and make another, which every device has to trust anew")
        .option("--log <level>", "debug, info, warn, error or silent; info writes a line a request", "warn"),
    load: () => import("./commands/serve.ts"),
  },
  {
    name: "demo",
    description: "Make the demo build in the data folder without serving it, and print its summary as JSON",
    options: (c) => c.option(...DATA),
    load: () => import("./commands/demo.ts"),
  },
  {
    name: "verify",
    description: "Check every log's chain and every clip and photo by their hashes; changes nothing",
    options: (c) =>
      c
        .option(...DATA)
        .option("--head <hash...>", "hashes of entries kept outside, as printed on a record: each must be in a log")
        .option("--backup <dir>", "a backup whose heads must be in the logs"),
    load: () => import("./commands/verify.ts"),
  },
  {
    name: "collect",
    description: "Tell how many clips and photos no entry names; nothing is ever deleted",
    options: (c) =>
      c.option(...DATA).option("--put-aside <n>", "move them into the folder's quarantine, if there are just so many"),
    load: () => import("./commands/collect.ts"),
  },
  {
    name: "backup",
    description: "Copy the whole shop into a new folder and check the copy; may run beside a server",
    options: (c) =>
      c
        .argument("<folder>", "folder to make")
        .option(...DATA)
        .option("--add", "add a backup named by its time to the folder; clips and photos that are there are not copied again")
        .option("--no-keys", "leave the private keys of the shop's door out"),
    load: () => import("./commands/backup.ts"),
  },
  {
    name: "restore",
    description: "Make a data folder from a backup, after checking all of it",
    options: (c) =>
      c
        .argument("<folder>", "the backup")
        .option(...DATA)
        .option("--swap", "take the place of what is in the data folder, which is kept beside it")
        .option("--damaged", "take a backup that was made of a damaged shop"),
    load: () => import("./commands/restore.ts"),
  },
  {
    name: "export",
    description: "Write one build's whole log as JSON to standard output; without an id, list the builds",
    options: (c) =>
      c
        .argument("[build]", "id of the build")
        .option(...DATA)
        .option("--blobs <dir>", "also copy its clips and photos into this folder"),
    load: () => import("./commands/export.ts"),
  },
  {
    name: "import",
    description: "Take a build's export into the shop, after checking its chain",
    options: (c) =>
      c
        .argument("<file>", "the export")
        .option(...DATA)
        .option("--blobs <dir>", "folder with its clips and photos")
        .option("--without-blobs", "take it although clips or photos are missing; verify will tell of them"),
    load: () => import("./commands/import.ts"),
  },
];
