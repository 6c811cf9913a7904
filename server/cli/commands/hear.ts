// `thoubook hear`: WAV files in, one JSON object a line out in order: what was heard and what was made of it.
import { readFile } from "node:fs/promises";
import { type Heard, HearingError, readWav, understand } from "../../../extractors/hearing/index.ts";
import { openHearer } from "../../../extractors/hearing/node/index.ts";
import { type Context, contextSchema, type Parsed } from "../../../shared/events/reading.ts";
import type { Spec } from "../../../shared/spec/spec.ts";
import { loadSpec } from "../spec-option.ts";

interface Failure {
  readonly code: string;
  readonly message: string;
}

const NOTHING: Omit<Parsed, "text"> = { readings: [], questions: [], commands: [], notes: [], unread: [] };

function line(file: string, heard: Heard, parsed: Parsed, why: boolean): Record<string, unknown> {
  const { readings, questions, commands, notes, unread } = parsed;
  const { text, seconds, verdict, chance, others, evidence } = heard;
  const ear = { verdict, chance, others, ...evidence };
  return { file, heard: text, seconds, readings, questions, commands, notes, unread, ...(why ? { ear } : {}) };
}

function failureOf(error: unknown, file: string): Failure {
  if (error instanceof HearingError) return { code: error.code, message: error.message };
  const code = (error as NodeJS.ErrnoException).code;
  if (code === "ENOENT") return { code: "clip_not_found", message: `Expected a file at ${file}, got none.` };
  if (code === "EISDIR") return { code: "clip_not_found", message: `Expected a file at ${file}, got a folder.` };
  return { code: "clip_unreadable", message: error instanceof Error ? error.message : String(error) };
}

type Setup =
  | { readonly ok: true; readonly spec: Spec; readonly context: Context }
  | { readonly ok: false; readonly message: string };

function contextOf(text: unknown): Context | undefined {
  if (text === undefined) return {};
  try {
    const read = contextSchema.safeParse(JSON.parse(String(text)));
    return read.success ? read.data : undefined;
  } catch {
    return undefined;
  }
}

async function setUp(options: Record<string, unknown>): Promise<Setup> {
  const loaded = await loadSpec(options.spec);
  if (!loaded.ok) return loaded;
  const context = contextOf(options.context);
  if (context === undefined)
    return { ok: false, message: `Expected a context object as JSON for --context, got ${options.context}` };
  const { units } = loaded.spec;
  return { ok: true, spec: loaded.spec, context: units === undefined ? context : { unit_system: units, ...context } };
}

/** Run the command; resolves to the exit code. */
export async function run(positional: unknown[], options: Record<string, unknown>): Promise<number> {
  const files = (positional[0] ?? []) as readonly string[];
  const setup = await setUp(options);
  if (!setup.ok || files.length === 0) {
    process.stderr.write(`${setup.ok ? "Expected one or more WAV files, got none" : setup.message}\n`);
    return 2;
  }
  const { spec, context } = setup;
  const hearer = openHearer();
  let exit = 0;
  try {
    for (const file of files) {
      try {
        const { pcm, rate } = readWav(await readFile(file));
        const heard = await hearer.hear(pcm, rate, { spec, context });
        process.stdout.write(`${JSON.stringify(line(file, heard, understand(heard, context, spec), options.why === true))}\n`);
      } catch (error) {
        const failure = failureOf(error, file);
        process.stderr.write(`${file}: ${failure.code}: ${failure.message}\n`);
        process.stdout.write(`${JSON.stringify({ file, heard: "", seconds: 0, ...NOTHING, error: failure })}\n`);
        exit = 1;
      }
    }
  } finally {
    await hearer.close();
  }
  return exit;
}
