// A step of the job opened by name: "open rings", "start main bearings".
import { STEPS, type StepId } from "../../../shared/steps/steps.ts";
import type { Word } from "../types.ts";
import { OPEN_WORDS } from "../vocabulary/commands.ts";
import { toWords } from "../words.ts";

const BY_NAME = new Map<string, StepId>();
for (const step of STEPS) {
  for (const name of [...step.spoken, step.title]) {
    const key = toWords(name)
      .map((word) => word.text)
      .join(" ");
    if (!BY_NAME.has(key)) BY_NAME.set(key, step.id);
  }
}
const OPENERS = [...OPEN_WORDS].sort((a, b) => b.length - a.length);
const TAILS = /\s+(?:step|please|now|next|check|work)$/;

/** The step the words open, or undefined. A step's name alone opens nothing: it may be a quantity's. */
export function readStep(words: readonly Word[]): StepId | undefined {
  const text = words
    .map((word) => word.text)
    .join(" ")
    .replace(/^(?:ok|okay|right|so|well|um|uh|alright|and)\s+/, "");
  for (const opener of OPENERS) {
    if (!text.startsWith(`${opener} `)) continue;
    const rest = text.slice(opener.length + 1);
    const step = BY_NAME.get(rest) ?? BY_NAME.get(rest.replace(TAILS, "")) ?? BY_NAME.get(rest.replace(/^(?:the|step) /, ""));
    if (step !== undefined) return step;
  }
  return undefined;
}
