// The --spec option: a spec sheet file (YAML or JSON) checked by the schema, or the demo engine's.
import { readFile } from "node:fs/promises";
import { parse as parseYaml } from "yaml";
import { DEMO_SPEC } from "../../shared/spec/demo-engine.ts";
import { type Spec, specSchema } from "../../shared/spec/spec.ts";

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
  try {
    // JSON is YAML, so one reader serves both.
    const read = specSchema.safeParse(parseYaml(text));
    if (read.success) return { ok: true, spec: read.data };
    const issue = read.error.issues[0];
    return {
      ok: false,
      message: `Expected a valid spec sheet in ${path}, got ${issue?.path.join(".") ?? ""}: ${issue?.message ?? ""}`,
    };
  } catch (error) {
    return {
      ok: false,
      message: `Expected YAML or JSON in ${path}, got ${error instanceof Error ? error.message.split("\n")[0] : "nothing readable"}`,
    };
  }
}
