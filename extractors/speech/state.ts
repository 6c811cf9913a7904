// What one utterance has come to so far, passed along the refiners; each returns a new one.
import type { Question } from "../../shared/events/reading.ts";
import type { QuantityId } from "../../shared/quantities/types.ts";
import type { Draft } from "./measure/draft.ts";
import type { Env } from "./measure/env.ts";
import type { Token } from "./types.ts";
import { QUESTIONS, type QuestionCode } from "./vocabulary/questions.ts";

/** A draft on its way out: kept or waiting for a yes, and why. */
export interface Kept {
  readonly draft: Draft;
  readonly because: string | undefined;
}

export interface State {
  readonly kept: readonly Kept[];
  readonly questions: readonly Question[];
  /** Other readings of the sentence that scored nearly as well. */
  readonly rivals: readonly Draft[];
  readonly tokens: readonly Token[];
  readonly env: Env;
  /** Words repaired before reading. */
  readonly repairs: readonly string[];
  readonly grave: boolean;
  /** Words that no reading made use of. */
  readonly unused?: readonly Token[];
  /** The quantity of a sentence that broke off before its figure. */
  readonly unsaid?: QuantityId;
}

/** A refiner looks at every draft once more: it drops, asks, or makes one wait. */
export interface Refiner {
  readonly name: string;
  refine(state: State): State;
}

/** A question by code, with what there is to choose from. */
export function question(code: QuestionCode, options?: readonly string[], about?: Record<string, unknown>): Question {
  return {
    code,
    say: QUESTIONS[code],
    ...(options === undefined ? {} : { options: [...options] }),
    ...(about === undefined ? {} : { about }),
  };
}

/** The state with one more question; the same question is asked once. */
export function asking(state: State, asked: Question): State {
  return state.questions.some((q) => q.code === asked.code) ? state : { ...state, questions: [...state.questions, asked] };
}

/** Every draft through `change`: undefined drops it. */
export function mapKept(state: State, change: (kept: Kept) => Kept | undefined): State {
  const kept: Kept[] = [];
  for (const one of state.kept) {
    const next = change(one);
    if (next !== undefined) kept.push(next);
  }
  return { ...state, kept };
}

/** Make the drafts that satisfy `test` wait for a yes, for `reason`; the first reason given stays. */
export function confirmWhere(state: State, reason: string, test: (draft: Draft) => boolean): State {
  return mapKept(state, (kept) => (kept.because === undefined && test(kept.draft) ? { ...kept, because: reason } : kept));
}
