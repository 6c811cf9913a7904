// `thoubook sheet`: check a spec sheet's file, print the demo engine's, or start a new engine's from its kind and its few known sizes.
import { readFile } from "node:fs/promises";
import { blankSpec } from "../../../shared/spec/blank.ts";
import { DEMO_SPEC } from "../../../shared/spec/demo-engine.ts";
import { EXAMPLES } from "../../../shared/spec/examples/index.ts";
import {
  KIND_BEARINGS,
  KIND_LUBRICATION,
  KIND_VALVES,
  KINDS,
  type KindChoice,
  kindEngine,
  withCylinders,
} from "../../../shared/spec/kinds.ts";
import { readSpecFile, writeSpecFile } from "../../../shared/spec/read.ts";
import { UNIT_SYSTEMS, type UnitSystem } from "../../../shared/spec/sizes.ts";
import type { Engine, Spec } from "../../../shared/spec/spec.ts";
import { writtenPlan } from "../../../shared/steps/plan.ts";

interface Options {
  readonly demo?: boolean;
  readonly example?: string;
  readonly new?: string;
  readonly kind?: string;
  readonly bearings?: string;
  readonly lubrication?: string;
  readonly valves?: string;
  readonly units?: string;
  readonly pistons?: string;
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

/** Lower case letters, digits and dashes, from a name: "Old Four, 1921" is "old-four-1921". */
const idFrom = (name: string): string =>
  name
    .toLowerCase()
    .replaceAll(/[^a-z0-9]+/g, "-")
    .replaceAll(/^-|-$/g, "") || "engine";

/** What an option may say, and what it said: `Expected one of poured, shell, roller for --bearings, got brass`. */
const CHOICES = {
  kind: Object.keys(KINDS),
  bearings: KIND_BEARINGS,
  lubrication: KIND_LUBRICATION,
  valves: Object.keys(KIND_VALVES),
  units: UNIT_SYSTEMS,
  pistons: ["iron", "alloy"],
} as const;

function wrongChoice(options: Options): string | undefined {
  for (const [name, choices] of Object.entries(CHOICES)) {
    const said = options[name as keyof typeof CHOICES];
    if (said !== undefined && !(choices as readonly string[]).includes(said))
      return `Expected one of ${choices.join(", ")} for --${name}, got ${said}`;
  }
  for (const name of ["cylinders", "mains"] as const)
    if (options[name] !== undefined && !/^\d{1,2}$/.test(options[name]))
      return `Expected a number for --${name}, got ${options[name]}`;
  return undefined;
}

const given = <K extends string>(
  from: { readonly [key in K]?: string | undefined },
  ...names: readonly K[]
): { [key in K]?: string } =>
  Object.fromEntries(names.flatMap((name) => (from[name] === undefined ? [] : [[name, from[name]]]))) as { [key in K]?: string };

const MATERIALS = { iron: "grey_iron", alloy: "piston_alloy" } as const;

/** The kind as chosen, and counts that differ from its own. */
function engineFrom(options: Options): Engine {
  const valves = options.valves ?? (options.overhead === true ? "overhead" : undefined);
  const choice = { kind: options.kind ?? "four", ...given({ ...options, valves }, "bearings", "lubrication", "valves") };
  const engine = kindEngine(choice as KindChoice);
  const mains = Number(options.mains ?? engine.mains);
  return { ...withCylinders(engine, Number(options.cylinders ?? engine.cylinders)), mains };
}

function startNew(options: Options): { text: string; spec: Spec } | { say: string } {
  const wrong = wrongChoice(options);
  if (wrong !== undefined) return { say: wrong };
  const name = options.new ?? `New ${options.kind}`;
  const sheet = blankSpec({
    id: idFrom(name).slice(0, 60),
    name,
    engine: engineFrom(options),
    units: (options.units ?? "inch") as UnitSystem,
    materials: { block: "grey_iron", piston: MATERIALS[(options.pistons ?? "iron") as keyof typeof MATERIALS], crank: "steel" },
    ...given(options, "bore", "stroke", "mainJournal", "crankpin", "pin"),
  });
  const text = writeSpecFile({ ...sheet, plan: writtenPlan(sheet) });
  // The sheet is read back before it is given out, so that what was typed for it is checked like any file.
  const read = readSpecFile(text, "new sheet");
  return read.ok ? { text, spec: read.spec } : { say: read.errors[0]?.say ?? "Expected a sound sheet, got none" };
}

/** Exit code: 0 printed or sound, 1 when the file cannot be read or is no sound sheet, 2 for bad arguments. */
export async function run(positional: unknown[], options: Options): Promise<number> {
  const [file] = positional as [string | undefined];
  if (options.demo === true) {
    process.stdout.write(writeSpecFile(DEMO_SPEC));
    return 0;
  }
  if (options.example !== undefined) {
    const example = Object.entries(EXAMPLES).find(([name]) => name === options.example)?.[1];
    const names = Object.keys(EXAMPLES).join(", ");
    if (example === undefined) return refuse("bad_sheet", `Expected one of ${names} for --example, got ${options.example}`, 2);
    process.stdout.write(options.json === true ? `${JSON.stringify(example)}\n` : writeSpecFile(example));
    return 0;
  }
  if (options.new !== undefined || options.kind !== undefined) {
    const made = startNew(options);
    if ("say" in made) return refuse("bad_sheet", made.say, 2);
    process.stdout.write(options.json === true ? `${JSON.stringify(made.spec)}\n` : made.text);
    return 0;
  }
  if (file === undefined)
    return refuse("missing_file", "Expected a sheet's FILE, --demo, --kind KIND or --new NAME, got none", 2);
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
