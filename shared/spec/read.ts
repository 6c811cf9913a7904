// A spec sheet as a file: YAML or JSON text in, a checked sheet out, or errors that name line and field.
import { isScalar, LineCounter, type ParsedNode, parseDocument, stringify } from "yaml";
import { nonsenseIn } from "./sense.ts";
import { type Spec, specSchema } from "./spec.ts";

export interface SpecError {
  readonly code: "not_readable" | "not_a_sheet" | "bad_field" | "unknown_field" | "missing_field" | "no_sense";
  /** One-based. */
  readonly line: number;
  readonly column: number;
  /** Dotted path: `limits.3.accept.high`. Empty for the file as a whole. */
  readonly field: string;
  /** `demo.yaml:12: limits.3.accept.high: Expected a decimal number in quotes, got "three"`. */
  readonly say: string;
}

export type SpecFile = { readonly ok: true; readonly spec: Spec } | { readonly ok: false; readonly errors: readonly SpecError[] };

type Path = readonly PropertyKey[];
type Issue = { readonly path: Path; readonly code: string; readonly message: string; readonly keys?: readonly string[] };

const dotted = (path: Path): string => path.map(String).join(".");

/** Sheets are small; a larger file is no sheet. */
const MOST = 1_000_000;

/**
 * Figures of a sheet are decimal text, so that 3.8750 stays 3.8750; a person writes them without quotes.
 * Where the sheet wants text and the file has a number, the digits are taken as they stand in the file.
 */
function keepDigits(value: unknown, node: unknown): unknown {
  if (isScalar(node))
    return typeof node.value === "number" && node.source !== undefined ? new Digits(node.source, node.value) : node.value;
  const items = (node as { items?: unknown[] } | null)?.items;
  if (Array.isArray(value)) return value.map((item, i) => keepDigits(item, items?.[i]));
  if (value === null || typeof value !== "object") return value;
  const pairs = (items ?? []) as { key: { value?: unknown }; value: unknown }[];
  return Object.fromEntries(
    Object.entries(value).map(([key, item]) => [
      key,
      keepDigits(item, pairs.find((pair) => String(pair.key?.value) === key)?.value),
    ]),
  );
}

/** A number of the file with its digits. */
class Digits {
  readonly text: string;
  readonly value: number;
  constructor(text: string, value: number) {
    this.text = text;
    this.value = value;
  }
}

const settle = (value: unknown, as: (digits: Digits, path: string) => unknown, path = ""): unknown => {
  if (value instanceof Digits) return as(value, path);
  if (Array.isArray(value)) return value.map((item, i) => settle(item, as, `${path}.${i}`));
  if (value === null || typeof value !== "object") return value;
  return Object.fromEntries(Object.entries(value).map(([key, item]) => [key, settle(item, as, `${path}.${key}`)]));
};

/** Check numbers as numbers first, then hand those that should have been text over as the digits that were written. */
function check(raw: unknown) {
  const asNumbers = specSchema.safeParse(settle(raw, (digits) => digits.value));
  if (asNumbers.success) return asNumbers;
  const texts = new Set(
    asNumbers.error.issues
      .filter((issue) => issue.code === "invalid_type" && (issue as { expected?: string }).expected === "string")
      .map((issue) => `.${dotted(issue.path)}`),
  );
  return specSchema.safeParse(settle(raw, (digits, path) => (texts.has(path) ? digits.text : digits.value)));
}

function codeOf(issue: Issue, got: unknown): SpecError["code"] {
  if (issue.code === "unrecognized_keys") return "unknown_field";
  return got === undefined ? "missing_field" : "bad_field";
}

const shown = (got: unknown): string => (got === undefined ? "nothing" : JSON.stringify(got)?.slice(0, 60));

/**
 * Read a spec sheet. `name` is the file's, for the sentences.
 * Never throws for what the text says: each fault has its line, its field and one sentence.
 */
export function readSpecFile(text: string, name: string): SpecFile {
  const whole = (code: SpecError["code"], say: string, line = 1, column = 1): SpecFile => ({
    ok: false,
    errors: [{ code, line, column, field: "", say: `${name}:${line}: ${say}` }],
  });
  if (text.length > MOST) return whole("not_a_sheet", `Expected a spec sheet below ${MOST} letters, got ${text.length}`);
  const lines = new LineCounter();
  // Aliases can unfold a small file into an endless one, and no sheet needs them.
  const document = parseDocument(text, { lineCounter: lines, prettyErrors: false, uniqueKeys: true, version: "1.2" });
  const fault = document.errors[0];
  if (fault !== undefined) {
    const { line, col } = lines.linePos(fault.pos[0]);
    return whole("not_readable", `Expected YAML or JSON, got a fault: ${fault.message}`, line, col);
  }
  let plain: unknown;
  try {
    plain = document.toJS({ maxAliasCount: 0 });
  } catch {
    return whole("not_readable", "Expected a sheet without aliases, got one that repeats itself by reference");
  }
  if (plain === null || typeof plain !== "object" || Array.isArray(plain)) {
    return whole("not_a_sheet", `Expected the fields of a spec sheet, got ${shown(plain)}`);
  }
  const raw = keepDigits(plain, document.contents);
  const checked = check(raw);
  if (checked.success) {
    const senseless = nonsenseIn(checked.data).map(({ path, say }): SpecError => {
      const { line, column } = placeOf(document.contents, path, lines);
      return { code: "no_sense", line, column, field: dotted(path), say: `${name}:${line}: ${dotted(path)}: ${say}` };
    });
    return senseless.length === 0 ? { ok: true, spec: checked.data } : { ok: false, errors: inLines(senseless) };
  }
  const errors = checked.error.issues.map((issue): SpecError => {
    const { line, column } = placeOf(document.contents, issue.path, lines, issue as Issue);
    const got = valueAt(plain, issue.path);
    const field = dotted(
      issue.code === "unrecognized_keys" ? [...issue.path, ...((issue as Issue).keys ?? []).slice(0, 1)] : issue.path,
    );
    const tail = issue.code === "unrecognized_keys" ? "" : `, got ${shown(got)}`;
    return {
      code: codeOf(issue as Issue, got),
      line,
      column,
      field,
      say: `${name}:${line}: ${field || "the sheet"}: ${plainly(issue.message)}${tail}`,
    };
  });
  return { ok: false, errors: inLines(errors) };
}

const inLines = (errors: readonly SpecError[]): SpecError[] => [...errors].sort((a, b) => a.line - b.line);

/** Zod's sentence without its own "received" half, which the value at hand says better. */
const plainly = (message: string): string =>
  message
    .replace(/^Invalid input: expected /, "Expected ")
    .replace(/, received .*$/, "")
    .replace(/^Invalid option: expected /, "Expected ");

function valueAt(value: unknown, path: Path): unknown {
  let at = value;
  for (const step of path) at = at === null || typeof at !== "object" ? undefined : (at as Record<PropertyKey, unknown>)[step];
  return at;
}

/** Where a field stands; for one that is missing, where its nearest parent does. */
function placeOf(root: ParsedNode | null, path: Path, lines: LineCounter, issue?: Issue): { line: number; column: number } {
  let node: unknown = root;
  let offset = root?.range?.[0] ?? 0;
  const steps = issue?.code === "unrecognized_keys" ? [...path, ...(issue.keys ?? []).slice(0, 1)] : path;
  for (const step of steps) {
    const items: unknown[] = (node as { items?: unknown[] } | null)?.items ?? [];
    const pair = items.find((item) => String((item as { key?: { value?: unknown } } | null)?.key?.value) === String(step)) as
      | { key: { range?: number[] }; value: unknown }
      | undefined;
    const next = pair?.value ?? (typeof step === "number" ? items[step] : undefined);
    const at = pair?.key.range?.[0] ?? (next as { range?: number[] } | undefined)?.range?.[0];
    if (at === undefined) break;
    offset = at;
    node = next;
  }
  const { line, col } = lines.linePos(offset);
  return { line, column: col };
}

/** A sheet as YAML text; reading it back gives the same sheet, digit by digit. */
export function writeSpecFile(spec: Spec): string {
  return stringify(spec, { aliasDuplicateObjects: false, lineWidth: 100, defaultStringType: "PLAIN", defaultKeyType: "PLAIN" });
}
