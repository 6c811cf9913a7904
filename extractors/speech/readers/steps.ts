// A step of the job opened or closed by name: "open rings", "start main bearings", "rings done".
import { type Planned, planOf } from "../../../shared/steps/plan.ts";
import type { StepId } from "../../../shared/steps/steps.ts";
import { beginnings, endings, indexPhrases } from "../phrases.ts";
import type { Word } from "../types.ts";
import { CLOSE_WORDS, CLOSED_WORDS, OPEN_WORDS } from "../vocabulary/commands.ts";
import { toWords } from "../words.ts";

type Names = ReadonlyMap<string, StepId>;
const NAMES = new WeakMap<Planned, Names>();

/** The names of the steps of a sheet's plan; what it has not got cannot be opened. */
function namesOf(sheet: Planned): Names {
  const known = NAMES.get(sheet);
  if (known !== undefined) return known;
  const names = new Map<string, StepId>();
  for (const step of planOf(sheet)) {
    for (const name of [...step.spoken, step.title]) {
      const key = textOf(toWords(name));
      if (!names.has(key)) names.set(key, step.id);
    }
  }
  NAMES.set(sheet, names);
  return names;
}
const OPENERS = indexPhrases(OPEN_WORDS);
const CLOSERS = indexPhrases(CLOSE_WORDS);
const CLOSED = indexPhrases(CLOSED_WORDS, "last");
const TAIL = /\s+(?:step|please|now|next|check|work|test)$/;
const LEAD = new Set(["ok", "okay", "right", "so", "well", "um", "uh", "alright", "and", "thats"]);
const ARTICLE = /^(?:the|step|my)\s+/;
/** No step's opening is longer. */
const LONGEST = 60;

export interface StepRead {
  readonly step: StepId;
  readonly closes: boolean;
}

const textOf = (words: readonly Word[]): string => words.map((word) => word.text).join(" ");

function named(words: readonly Word[], names: Names): StepId | undefined {
  if (words.length === 0) return undefined;
  const plain = textOf(words).replace(ARTICLE, "");
  const bare = plain.replace(TAIL, "");
  // "ring gaps" is the same step as "ring gap".
  return names.get(plain) ?? names.get(bare) ?? names.get(bare.replace(/s$/, ""));
}

/** The step of the sheet's plan that the words open or close, or undefined. A step's name alone opens nothing: it may be a quantity's. */
export function readStep(all: readonly Word[], sheet: Planned): StepRead | undefined {
  const last = all[all.length - 1];
  if (last === undefined || last.end - (all[0]?.start ?? 0) > LONGEST) return undefined;
  const names = namesOf(sheet);
  const lead = all.findIndex((word) => !LEAD.has(word.text));
  const words = lead > 0 ? all.slice(lead) : all;
  for (const closed of endings(CLOSED, words)) {
    const step = named(words.slice(0, -closed.length), names);
    if (step !== undefined) return { step, closes: true };
  }
  for (const [index, closes] of [
    [CLOSERS, true],
    [OPENERS, false],
  ] as const) {
    for (const opener of beginnings(index, words)) {
      const step = named(words.slice(opener.length), names);
      if (step !== undefined) return { step, closes };
    }
  }
  return undefined;
}
