// The parser's door: text, context and spec in; readings, questions, commands and notes out.
import type { Context, Parsed } from "../../shared/events/reading.ts";
import type { Spec } from "../../shared/spec/spec.ts";
import { run } from "./pipeline.ts";
import { Why } from "./trace.ts";

/**
 * Read one utterance.
 * @param context what is known before it is heard: open quantity, place, unit system, last reading, step
 * @returns always an answer; what cannot be read without guessing is a question, talk gives nothing
 */
export function parse(text: string, context: Context, spec: Spec): Parsed {
  return run(text, context, spec);
}

/** As parse, and how the sentence was read, a line a stage. */
export function parseWhy(text: string, context: Context, spec: Spec): { parsed: Parsed; why: readonly string[] } {
  const why = new Why();
  const parsed = run(text, context, spec, why);
  return { parsed, why: why.lines };
}

export { type GeneralNumber, readNumbers } from "./general/readNumbers.ts";
export { placeWords, readBack, type Verdict, valueWords } from "./say/readBack.ts";
export { spokenForms } from "./say/spokenForms.ts";
