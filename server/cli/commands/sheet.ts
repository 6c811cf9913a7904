// `thoubook sheet`: check a spec sheet's file, print the demo engine's, or start a new engine's from its few known sizes.
import { readFile } from "node:fs/promises";
import { blankSpec } from "../../../shared/spec/blank.ts";
import { DEMO_SPEC } from "../../../shared/spec/demo-engine.ts";
import { readSpecFile, writeSpecFile } from "../../../shared/spec/read.ts";
import type { Engine } from "../../../shared/spec/spec.ts";

interface Options {
  readonly demo?: boolean;
  readonly new?: string;
  readonly bore?: string;
  readonly stroke?: string;
  readonly mainJournal?: string;
  readonly crankpin?: string;
  readonly pin?: string;
  readonly cylinders?: string;
  readonly mains?: string;
  readonly overhead?: boolean;
  readonly json?: boolean;
}

const refuse = (code: string, say: string, exit: number): number => {
  process.stderr.write(`${code}: ${say}\n`);
  return exit;
};

/** What is usual where nothing was said; every one of these is the shop's to change on the sheet. */
function engineFrom(options: Options): Engine {
  const cylinders = Number(options.cylinders ?? "4");
  return {
    layout: options.overhead === true ? "overhead_valve" : "side_valve",
    cylinders,
    mains: Number(options.mains ?? "3"),
    rings: ["top", "second", "oil"],
    firingOrder: [],
    numberedFrom: "front",
    bearings: "poured",
    oiling: "splash",
    rodNuts: 2,
    mainNuts: 2,
    headNuts: 14,
  };
}

/** Lower case letters, digits and dashes, from a name: "Old Four, 1921" is "old-four-1921". */
const idFrom = (name: string): string =>
  name
    .toLowerCase()
    .replaceAll(/[^a-z0-9]+/g, "-")
    .replaceAll(/^-|-$/g, "") || "engine";

function startNew(name: string, options: Options): { text: string } | { say: string } {
  if (options.bore === undefined || options.stroke === undefined) {
    return { say: "Expected --bore and --stroke in inches for a new sheet, got one of them missing" };
  }
  const { mainJournal, crankpin, pin } = options;
  const sheet = blankSpec({
    id: idFrom(name).slice(0, 60),
    name,
    engine: engineFrom(options),
    bore: options.bore,
    stroke: options.stroke,
    ...(mainJournal === undefined ? {} : { mainJournal }),
    ...(crankpin === undefined ? {} : { crankpin }),
    ...(pin === undefined ? {} : { pin }),
  });
  const text = writeSpecFile(sheet);
  // The sheet is read back before it is given out, so that what was typed for it is checked like any file.
  const read = readSpecFile(text, "new sheet");
  return read.ok ? { text } : { say: read.errors[0]?.say ?? "Expected a sound sheet, got none" };
}

/** Exit code: 0 printed or sound, 1 when the file cannot be read or is no sound sheet, 2 for bad arguments. */
export async function run(positional: unknown[], options: Options): Promise<number> {
  const [file] = positional as [string | undefined];
  if (options.demo === true) {
    process.stdout.write(writeSpecFile(DEMO_SPEC));
    return 0;
  }
  if (options.new !== undefined) {
    const made = startNew(options.new, options);
    if ("say" in made) return refuse("bad_sheet", made.say, 2);
    process.stdout.write(made.text);
    return 0;
  }
  if (file === undefined) return refuse("missing_file", "Expected a sheet's FILE, --demo or --new NAME, got none", 2);
  let text: string;
  try {
    text = await readFile(file, "utf8");
  } catch (error) {
    return refuse("unreadable_file", `Expected a readable file for FILE, got ${file}: ${(error as Error).message}`, 1);
  }
  const read = readSpecFile(text, file);
  if (!read.ok) {
    for (const error of read.errors) process.stderr.write(`${error.code}: ${error.say}\n`);
    return 1;
  }
  process.stdout.write(options.json === true ? `${JSON.stringify(read.spec)}\n` : writeSpecFile(read.spec));
  return 0;
}
