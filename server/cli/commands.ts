// The ordered list of commands: name, one line of help, options, and the module that does the work.
import type { Command } from "commander";
import { DATA_COMMANDS } from "./data-commands.ts";

export interface CliCommand {
  readonly name: string;
  readonly description: string;
  options(command: Command): void;
  /** `run(positional, options)` resolves to the exit code: 0 done, 1 failed, 2 bad arguments. */
  load(): Promise<{ run(positional: unknown[], options: Record<string, unknown>): Promise<number> }>;
}

export const CLI_COMMANDS: readonly CliCommand[] = [
  {
    name: "parse",
    description: "Read one utterance a line from standard input, write one JSON object a line",
    options: (c) =>
      c
        .option("--spec <file>", "spec sheet of the engine (YAML or JSON)")
        .option("--numbers", "read plain numbers and measures instead")
        .option("--why", "tell how each sentence was read"),
    load: () => import("./commands/parse.ts"),
  },
  {
    name: "hear",
    description: "Hear WAV files, write one JSON object a line: what was said and what it comes to",
    options: (c) =>
      c
        .argument("[files...]", "WAV files of any common rate, mono or stereo")
        .option("--context <json>", "what is open: quantity, place, unit_system, last")
        .option("--spec <file>", "spec sheet of the engine (YAML or JSON)")
        .option("--why", "add what the ear made of the sound: doubt, noise, frequency scale"),
    load: () => import("./commands/hear.ts"),
  },
  {
    name: "compute",
    description: "Work out one computation from name=value pairs, with its formula and source",
    options: (c) =>
      c
        .argument("[id]", "the computation; --list lists them")
        .argument(
          "[pairs...]",
          "inputs as name=value with their unit: bore=3.905in chamber=224cc; a standard uncertainty may follow: 3.905in+-0.0002in",
        )
        .option("--list", "list every computation with its inputs, one JSON object a line"),
    load: () => import("./commands/compute.ts"),
  },
  ...DATA_COMMANDS,
  {
    name: "sheet",
    description: "Check an engine's spec sheet (YAML or JSON), or print one to start from",
    options: (c) =>
      c
        .argument("[file]", "the sheet to check; it is printed back when it is sound")
        .option("--json", "print it as JSON")
        .option("--demo", "print the demo engine's sheet")
        .option("--example <name>", "print a worked example of an invented engine: four, six or twin")
        .option("--kind <kind>", "start a sheet with common-practice limits: single, twin, four, six or v8")
        .option("--bearings <kind>", "poured, shell or roller")
        .option("--lubrication <way>", "splash or pressure")
        .option("--valves <where>", "side, overhead, overhead-cam, or ports for a two-stroke")
        .option("--units <system>", "inch or metric: what bare figures are in, here and at the bench", "inch")
        .option("--pistons <material>", "iron or alloy", "iron")
        .option("--new <name>", "the engine's name; a four where no kind is said")
        .option("--bore <size>", "standard bore; a size may have its unit: 68.00mm")
        .option("--stroke <size>", "stroke")
        .option("--main-journal <size>", "main journal")
        .option("--crankpin <size>", "crankpin")
        .option("--pin <size>", "piston pin")
        .option("--cylinders <n>", "how many cylinders, where not the kind's")
        .option("--mains <n>", "how many main bearings, where not the kind's")
        .option("--overhead", "as --valves overhead"),
    load: () => import("./commands/sheet.ts"),
  },
  {
    name: "check",
    description: "Read a build's export and print every finding of the rules as JSON",
    options: (c) => c.argument("[file]", "a build as export wrote it (JSON)"),
    load: () => import("./commands/check.ts"),
  },
  {
    name: "cards",
    description: "Write a printable sheet of tag cards for an engine's parts and photos",
    options: (c) =>
      c
        .option("--spec <file>", "spec sheet of the engine (YAML or JSON); the demo engine's without it")
        .option("--out <file>", "file to write, .pdf or .html")
        .option("--paper <size>", "a4 or letter", "a4"),
    load: () => import("./commands/cards.ts"),
  },
];
