// `thoubook parse`: one utterance a line from standard input, one JSON object a line out, in order, as they come.
import { once } from "node:events";
import { createInterface } from "node:readline";
import { parse, parseWhy, readNumbers } from "../../../extractors/speech/index.ts";
import { type Context, contextSchema, type Parsed } from "../../../shared/events/reading.ts";
import type { Spec } from "../../../shared/spec/spec.ts";
import { loadSpec } from "../spec-option.ts";

interface Line {
  readonly text: string;
  readonly context: Context;
  readonly complaint?: string;
}

/** A line as an utterance: JSON with a text, or else the line itself. */
function lineOf(line: string): Line {
  if (!line.trimStart().startsWith("{")) return { text: line, context: {} };
  let json: unknown;
  try {
    json = JSON.parse(line);
  } catch {
    return { text: line, context: {}, complaint: "Expected JSON after {, read the line as plain text" };
  }
  if (typeof json !== "object" || json === null || !("text" in json) || typeof json.text !== "string") {
    return { text: line, context: {}, complaint: 'Expected a "text" in the object, read the line as plain text' };
  }
  const given: unknown = "context" in json ? (json.context ?? {}) : {};
  return { text: json.text, ...contextOf(given) };
}

/** A context with the fields that are not valid left out, and what was left out. */
function contextOf(given: unknown): { context: Context; complaint?: string } {
  const whole = contextSchema.safeParse(given);
  if (whole.success) return { context: whole.data };
  if (typeof given !== "object" || given === null)
    return { context: {}, complaint: "Expected an object for context, ignored it" };
  const good: Record<string, unknown> = { ...given };
  const bad = new Set(whole.error.issues.map((issue) => String(issue.path[0] ?? "")));
  for (const field of bad) delete good[field];
  const rest = contextSchema.safeParse(good);
  return { context: rest.success ? rest.data : {}, complaint: `Expected valid context fields, ignored ${[...bad].join(", ")}` };
}

function inContractOrder(parsed: Parsed): Record<string, unknown> {
  const { text, readings, questions, commands, notes, unread } = parsed;
  return { text, readings, questions, commands, notes, unread };
}

/** Run the command; resolves to the exit code. */
export async function run(_positional: unknown[], options: Record<string, unknown>): Promise<number> {
  const loaded = await loadSpec(options.spec);
  if (!loaded.ok) {
    process.stderr.write(`${loaded.message}\n`);
    return 2;
  }
  const answer = reader(options, loaded.spec);
  let number = 0;
  for await (const line of createInterface({ input: process.stdin, crlfDelay: Number.POSITIVE_INFINITY })) {
    number++;
    const read = lineOf(line);
    if (read.complaint !== undefined) process.stderr.write(`line ${number}: ${read.complaint}\n`);
    if (!process.stdout.write(`${answer(read)}\n`)) await once(process.stdout, "drain");
  }
  return 0;
}

function reader(options: Record<string, unknown>, spec: Spec): (line: Line) => string {
  if (options.numbers === true) return ({ text }) => JSON.stringify({ text, numbers: readNumbers(text) });
  if (options.why === true) {
    return ({ text, context }) => {
      const { parsed, why } = parseWhy(text, context, spec);
      return JSON.stringify({ ...inContractOrder(parsed), why });
    };
  }
  return ({ text, context }) => JSON.stringify(inContractOrder(parse(text, context, spec)));
}
