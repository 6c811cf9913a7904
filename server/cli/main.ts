#!/usr/bin/env node
// The command line: one file a command under commands/, loaded only when called.
import { Command } from "commander";
import { surviveReaders } from "./broken-pipes.ts";
import { CLI_COMMANDS } from "./commands.ts";
import { makePrivateFiles } from "./private.ts";

surviveReaders();
const program = new Command("thoubook")
  .description("A voice-and-photo bench logger for engine rebuilds.")
  .version("0.1.0")
  .exitOverride((error) => process.exit(error.exitCode === 0 ? 0 : 2))
  .showHelpAfterError("(thoubook COMMAND --help lists what it takes)");

for (const entry of CLI_COMMANDS) {
  const command = program.command(entry.name).description(entry.description);
  entry.options(command);
  command.exitOverride((error) => process.exit(error.exitCode === 0 ? 0 : 2));
  command.action(async (...args: unknown[]) => {
    // commander hands over the declared arguments, then the options, then the command itself.
    const positional = args.slice(0, -2);
    const options = args.at(-2) as Record<string, unknown>;
    makePrivateFiles();
    const { run } = await entry.load();
    process.exitCode = await run(positional, options);
  });
}

await program.parseAsync();
