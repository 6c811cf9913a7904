// What was heard and what was open in, readings, questions and commands out: where the ear's doubt meets the parser.
import type { Context, Parsed } from "../../shared/events/reading.ts";
import type { Spec } from "../../shared/spec/spec.ts";
import { parse } from "../speech/index.ts";
import type { Heard } from "./types.ts";

/** Parse what was heard. Pure; the same on the phone and in the shop's server. */
export function understand(heard: Heard, context: Context, spec: Spec): Parsed {
  return parse(heard.text, context, spec);
}
