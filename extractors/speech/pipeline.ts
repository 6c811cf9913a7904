// The one ordered list of what happens to an utterance, from text to readings, questions, commands and notes.
import type { Command, Context, Note, Parsed, Question, Reading } from "../../shared/events/reading.ts";
import type { Spec } from "../../shared/spec/spec.ts";
import { best, differs } from "./choose.ts";
import { type Env, envOf } from "./measure/env.ts";
import { brokenOff } from "./measure/onlyPlace.ts";
import { readCommands } from "./readers/commands.ts";
import { readCopy } from "./readers/copy.ts";
import { readCorrection } from "./readers/correction.ts";
import { withoutEnumeration } from "./readers/enumeration.ts";
import { readGoto } from "./readers/goto.ts";
import { readNote } from "./readers/notes.ts";
import { readPhotoOf } from "./readers/photo.ts";
import { readSilence } from "./readers/silence.ts";
import { readStep } from "./readers/steps.ts";
import { toReading } from "./reading.ts";
import { refuseApproximate, refuseDoubtful, refuseFar, refuseRange } from "./refiners/askAway.ts";
import { askAbsentPlace, askMissingPlace } from "./refiners/askPlace.ts";
import {
  confirmDigits,
  confirmGuess,
  confirmHedged,
  confirmList,
  confirmOutOfBand,
  confirmOver,
  confirmRepaired,
  confirmRival,
} from "./refiners/confirm.ts";
import { confirmAll, refuseUnnamed } from "./refiners/confirmAll.ts";
import { confirmKind } from "./refiners/confirmKind.ts";
import { confirmUnread } from "./refiners/confirmUnread.ts";
import { expandAll } from "./refiners/expandAll.ts";
import { refuseTalk } from "./refiners/talk.ts";
import { question, type Refiner, type State } from "./state.ts";
import { isClock, isPlain, talkOf } from "./talk.ts";
import { toTokens } from "./tokens.ts";
import type { Why } from "./trace.ts";
import type { Token, Word } from "./types.ts";
import { IDLE_UTTERANCES } from "./vocabulary/speech.ts";
import { toWords } from "./words.ts";

/** Refiners in order. The order matters where a line says so. */
export const REFINERS: readonly Refiner[] = [
  refuseTalk, // first: talk that is not for the book must not even raise a question
  refuseApproximate, // before places are asked for: without a figure the place does not matter
  refuseRange,
  refuseDoubtful,
  refuseFar,
  refuseUnnamed, // before places are asked for: it is not known of what
  askAbsentPlace, // before missing: "cylinder five" is a wrong place, not a missing one
  expandAll, // before missing: "all four" gives every place
  askMissingPlace,
  confirmKind, // first of all reasons: a figure of what is not there is wrong whatever else it is
  confirmRival, // from here on readings stand; the first reason to wait is the one that is told
  confirmOutOfBand,
  confirmRepaired,
  confirmUnread,
  confirmDigits,
  confirmOver,
  confirmGuess,
  confirmList,
  confirmHedged,
  confirmAll,
];

/** More words than this are no utterance at a bench; a stuck key or a held button is not searched for readings. */
const MOST_TOKENS = 80;
/** A rival within this score of the best reading cannot be told from it. */
const TELL_APART = 2;
function measure(words: readonly Word[], heard: readonly Token[], env: Env, why: Why | undefined): State | undefined {
  const { tokens, found, repairs, grave, doubt } = best(words, heard, env);
  why?.tokens(tokens, repairs);
  why?.candidates(found);
  const top = found[0];
  if (top === undefined) return undefined;
  const unsaid = brokenOff(top.drafts, tokens, env);
  if (unsaid !== undefined) return { kept: [], questions: [], rivals: [], tokens, env, repairs, grave, unsaid };
  const rivals = found
    .slice(1)
    .filter((other) => other.score > top.score - TELL_APART && other.drafts.length === top.drafts.length && differs(other, top))
    .flatMap((other) => other.drafts.slice(0, 1));
  let state: State = {
    kept: top.drafts.map((draft) => ({ draft, because: undefined })),
    questions: [],
    rivals: [...rivals.slice(0, 2), ...doubt.slice(0, 1)],
    tokens,
    env,
    repairs,
    grave,
  };
  for (const refiner of REFINERS) {
    // Nothing is left to refine: what was refused stays refused.
    if (state.kept.length === 0) break;
    const next = refiner.refine(state);
    if (next !== state) why?.refined(refiner.name, state, next);
    state = next;
  }
  return state;
}

/** Parse one utterance. Pure: the same text, context and spec give the same answer; it never throws. */
export function run(text: string, context: Context, spec: Spec, why?: Why): Parsed {
  const env = envOf(context, spec);
  const { commands, rest } = readCommands(toWords(text));
  const out = {
    commands: [...commands],
    readings: [] as Reading[],
    questions: [] as Question[],
    notes: [] as Note[],
    unread: [] as string[],
  };
  const done = (): Parsed => ({ text, ...out });
  if (rest.length === 0 || (rest.length < 4 && IDLE_UTTERANCES.has(rest.map((word) => word.text).join(" ")))) return done();
  if (isClock(rest)) return done();
  const tokens = toTokens(rest);
  const listed = withoutEnumeration(rest, spec);
  const measured = listed === rest ? tokens : toTokens(listed);
  if (tokens.length > MOST_TOKENS) {
    if (isPlain(talkOf(tokens))) out.questions.push(question("too_long"));
    return done();
  }
  // A whole sentence that opens or closes a step by its name is that, whatever its words say besides: "open crack check" finds no crack.
  const step = readStep(rest, spec);
  if (step !== undefined) {
    out.commands.push({ command: step.closes ? "done" : "step", step: step.step, span: spanOf(rest) } satisfies Command);
    return done();
  }
  const noted = readNote(text, rest, env);
  if (noted?.only) {
    out.notes.push(noted.note);
    if (noted.question !== undefined) out.questions.push(noted.question);
    return done();
  }
  const photo = readPhotoOf(rest, env);
  if (photo !== undefined) {
    out.commands.push(photo);
    return done();
  }
  const copied = readCopy(rest, env);
  if (copied !== undefined) {
    out.commands.push(...copied.commands);
    out.readings.push(...copied.readings);
    out.questions.push(...copied.questions);
    return done();
  }
  const corrected = readCorrection(rest, tokens, env, (inner) => measure(rest, tokens, inner, why));
  if (corrected !== undefined) {
    out.commands.push(...corrected.commands);
    out.questions.push(...corrected.questions);
    if (corrected.state !== undefined) finish(out, corrected.state);
    return done();
  }
  const went = readGoto(rest, tokens, env);
  if (went !== undefined) {
    out.commands.push(...went.commands);
    out.questions.push(...went.questions);
    return done();
  }
  const state = measure(listed, measured, env, why);
  // "slot lined up on rod two nut B": the number is the rod's, not an angle.
  const aligned = noted?.note.kind === "castle_state" && state?.kept.length === 1 && isRodNumber(state);
  if (state !== undefined && !aligned && (state.kept.length > 0 || state.questions.length > 0)) {
    finish(out, state);
    if (noted !== undefined) out.notes.push(noted.note);
    return done();
  }
  if (noted !== undefined) {
    out.notes.push(noted.note);
    if (noted.question !== undefined) out.questions.push(noted.question);
    return done();
  }
  const silent = readSilence(rest, tokens, env, state !== undefined && state.unsaid === undefined, state?.unsaid);
  out.commands.push(...silent.commands);
  out.questions.push(...silent.questions);
  out.unread.push(...silent.unread);
  return done();
}

/** The only figure is an angle with no unit, right behind the noun it counts. */
function isRodNumber({ kept, tokens }: State): boolean {
  const draft = kept[0]?.draft;
  if (draft?.quantity !== "castle_nut_angle" || !draft.value.implied) return false;
  return tokens[draft.expr.from - 1]?.sense.noun !== undefined;
}

function spanOf(words: readonly Word[]): [number, number] {
  return [words[0]?.start ?? 0, words[words.length - 1]?.end ?? 0];
}

function finish(out: { readings: Reading[]; questions: Question[]; unread: string[] }, state: State): void {
  for (const kept of state.kept) out.readings.push(toReading(kept, state.tokens));
  out.questions.push(...state.questions);
  for (const token of state.tokens) if (token.unknown || state.unused?.includes(token)) out.unread.push(token.text);
}
