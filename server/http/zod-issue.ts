// One plain sentence from a schema's complaint: "Expected string for body.events[0].at, got 12".
import { brief } from "../errors.ts";

interface Issue {
  readonly instancePath?: string;
  readonly keyword?: string;
  readonly message?: string;
  readonly params?: Readonly<Record<string, unknown>>;
}

/** What was wanted, by the kind of issue; the issue's own fields are in `params`. */
const WANTED: Readonly<Record<string, (params: Readonly<Record<string, unknown>>) => string>> = {
  invalid_type: (p) => String(p.expected),
  invalid_format: (p) => `text in the form of ${String(p.format)}`,
  invalid_value: (p) => `one of ${(p.values as unknown[]).slice(0, 12).join(", ")}`,
  too_big: (p) => `at most ${String(p.maximum)} (${String(p.origin)})`,
  too_small: (p) => `at least ${String(p.minimum)} (${String(p.origin)})`,
  unrecognized_keys: (p) => `no field named ${(p.keys as unknown[]).slice(0, 5).join(", ")}`,
  invalid_union: (p) => (p.discriminator === undefined ? "one of the known forms" : `a known ${String(p.discriminator)}`),
};

/** The sentence for one issue found in `data`, which came from `where` ("body", "querystring"). */
export function sayIssue(issue: Issue | undefined, data: unknown, where: string): string {
  if (issue === undefined) return `Expected a valid ${where}, got another`;
  // A schema's own sentence is kept as it stands.
  if (issue.message?.startsWith("Expected ")) return issue.message;
  const path = (issue.instancePath ?? "").split("/").filter((part) => part !== "");
  const wanted = WANTED[issue.keyword ?? ""]?.(issue.params ?? {}) ?? "a valid value";
  return `Expected ${wanted} for ${[where, ...path].join(".")}, got ${brief(valueAt(data, path))}`;
}

function valueAt(data: unknown, path: readonly string[]): unknown {
  let value = data;
  for (const part of path) {
    if (value === null || typeof value !== "object") return undefined;
    value = (value as Record<string, unknown>)[part];
  }
  return value;
}
