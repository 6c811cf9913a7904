// `thoubook check FILE`: a build's export in, every finding of the rules out, as one JSON array.
import { readFile } from "node:fs/promises";
import { z } from "zod";
import { foldBuild } from "../../../shared/build/build.ts";
import { type BuildExport, exportSchema } from "../../../shared/events/events.ts";
import { evaluate, type Finding } from "../../../shared/rules/index.ts";

export type CheckErrorCode = "unreadable_file" | "not_json" | "not_an_export" | "empty_build";

export type CheckResult =
  | { readonly ok: true; readonly findings: Finding[] }
  | { readonly ok: false; readonly code: CheckErrorCode; readonly say: string };

/** Check the text of an export. `name` is the file's, for the sentences. */
export function checkExport(text: string, name: string): CheckResult {
  let json: unknown;
  try {
    json = JSON.parse(text);
  } catch (error) {
    return { ok: false, code: "not_json", say: `Expected JSON in ${name}, got text that is not: ${(error as Error).message}` };
  }
  const parsed = exportSchema.safeParse(json);
  if (!parsed.success) {
    const first = parsed.error.issues[0];
    const where = first === undefined || first.path.length === 0 ? "its top" : z.core.toDotPath(first.path);
    return {
      ok: false,
      code: "not_an_export",
      say: `Expected a build's export in ${name}, got a fault at ${where}: ${first?.message}`,
    };
  }
  const events = inOrder(parsed.data);
  if (events[0]?.type !== "build.opened") {
    return {
      ok: false,
      code: "empty_build",
      say: `Expected build.opened as the first event of ${name}, got ${events[0]?.type ?? "none"}`,
    };
  }
  return { ok: true, findings: evaluate(foldBuild(events)) };
}

const inOrder = (file: BuildExport) => [...file.events].sort((a, b) => a.seq - b.seq).map((row) => row.event);

/** Exit code: 0 when the file could be read, whatever the findings; 1 when it could not; 2 without a file. */
export async function run(positional: unknown[]): Promise<number> {
  const [file] = positional as [string | undefined];
  if (file === undefined) {
    process.stderr.write("missing_file: Expected a build's export for FILE, got none\n");
    return 2;
  }
  let text: string;
  try {
    text = await readFile(file, "utf8");
  } catch (error) {
    process.stderr.write(`unreadable_file: Expected a readable file for FILE, got ${file}: ${(error as Error).message}\n`);
    return 1;
  }
  const result = checkExport(text, file);
  if (!result.ok) {
    process.stderr.write(`${result.code}: ${result.say}\n`);
    return 1;
  }
  process.stdout.write(`${JSON.stringify(result.findings, null, 1)}\n`);
  return 0;
}
