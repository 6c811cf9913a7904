// The --spec option: a spec sheet file (YAML or JSON) checked by the schema, or the demo engine's.
import { readFile } from "node:fs/promises";
import { DEMO_SPEC } from "../../shared/spec/demo-engine.ts";
import { readSpecFile } from "../../shared/spec/read.ts";
import type { Spec } from "../../shared/spec/spec.ts";

export type SpecRead = { readonly ok: true; readonly spec: Spec } | { readonly ok: false; readonly message: string };

/** Load the spec sheet named by the option; the demo engine's when none is named. */
export async function loadSpec(file: unknown): Promise<SpecRead> {
  if (file === undefined) return { ok: true, spec: DEMO_SPEC };
  const path = String(file);
  let text: string;
  try {
    text = await readFile(path, "utf8");
  } catch {
    return { ok: false, message: `Expected a readable spec sheet for --spec, got ${path}` };
  }
  const read = readSpecFile(text, path);
  if (read.ok) return read;
  const [first] = read.errors;
  const more = read.errors.length > 1 ? ` (and ${read.errors.length - 1} more)` : "";
  return { ok: false, message: `Expected a valid spec sheet for --spec, got ${first?.say ?? path}${more}` };
}
