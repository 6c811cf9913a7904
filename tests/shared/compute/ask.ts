// One computation asked for as at the command line, for tests: its printed answer, or the code it is refused with.
import { type Computed, compute } from "../../../shared/compute/request.ts";

function split(text: string): [string, string[]] {
  const [id = "", ...pairs] = text.split(" ");
  return [id, pairs];
}

/** @throws Error with the refusal's sentence */
export function answered(text: string): Computed {
  const result = compute(...split(text));
  if (!result.ok) throw new Error(`${text}: ${result.error.say}`);
  return result.computed;
}

/** The single figure of an answer. @throws Error when it has none */
export function figureOf(text: string): number {
  const { value } = answered(text);
  if (typeof value === "number") return value;
  throw new Error(`${text} has no single value: ${JSON.stringify(value)}`);
}

/** A named part of an answer, beside its value or in it. */
export function partOf(text: string, part: string): unknown {
  const { value, parts } = answered(text);
  return parts?.[part] ?? (typeof value === "number" ? undefined : value[part]);
}

/** The code of a refusal, or "answered". */
export function codeOf(text: string): string {
  const result = compute(...split(text));
  return result.ok ? "answered" : result.error.code;
}

/** The sentence of a refusal. @throws Error when it was answered */
export function refusalOf(text: string): string {
  const result = compute(...split(text));
  if (result.ok) throw new Error(`${text} was answered`);
  return result.error.say;
}
