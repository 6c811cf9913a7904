// A step of the job opened or closed by name: "open rings", "start main bearings", "rings done".
import { STEPS, type StepId } from "../../../shared/steps/steps.ts";
import type { Word } from "../types.ts";
import { CLOSE_WORDS, CLOSED_WORDS, OPEN_WORDS } from "../vocabulary/commands.ts";
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
const longestFirst = (phrases: readonly string[]): string[] => [...phrases].sort((a, b) => b.length - a.length);
const OPENERS = longestFirst(OPEN_WORDS);
const CLOSERS = longestFirst(CLOSE_WORDS);
const CLOSED = longestFirst(CLOSED_WORDS);
const TAIL = /\s+(?:step|please|now|next|check|work)$/;
const LEAD = /^(?:(?:ok|okay|right|so|well|um|uh|alright|and|thats)\s+)+/;
const ARTICLE = /^(?:the|step|my)\s+/;
/** No step's opening is longer. */
const LONGEST = 60;

export interface StepRead {
  readonly step: StepId;
  readonly closes: boolean;
}

function named(text: string): StepId | undefined {
  const plain = text.replace(ARTICLE, "");
  return BY_NAME.get(plain) ?? BY_NAME.get(plain.replace(TAIL, ""));
}

/** The step the words open or close, or undefined. A step's name alone opens nothing: it may be a quantity's. */
export function readStep(words: readonly Word[]): StepRead | undefined {
  const last = words[words.length - 1];
  if (last === undefined || last.end - (words[0]?.start ?? 0) > LONGEST) return undefined;
  const text = words
    .map((word) => word.text)
    .join(" ")
    .replace(LEAD, "");
  for (const closed of CLOSED) {
    const step = text.endsWith(` ${closed}`) ? named(text.slice(0, -closed.length - 1)) : undefined;
    if (step !== undefined) return { step, closes: true };
  }
  for (const closer of CLOSERS) {
    const step = text.startsWith(`${closer} `) ? named(text.slice(closer.length + 1)) : undefined;
    if (step !== undefined) return { step, closes: true };
  }
  for (const opener of OPENERS) {
    const step = text.startsWith(`${opener} `) ? named(text.slice(opener.length + 1)) : undefined;
    if (step !== undefined) return { step, closes: false };
  }
  return undefined;
}
