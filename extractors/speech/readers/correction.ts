// A correction of the last reading: a new value for it, or its value moved to the place it was really taken at.
import type { Command, Context, Question } from "../../../shared/events/reading.ts";
import { QUANTITIES } from "../../../shared/quantities/registry.ts";
import type { Env } from "../measure/env.ts";
import { question, type State } from "../state.ts";
import { isPlain, talkOf } from "../talk.ts";
import type { Token, Word } from "../types.ts";
import { readPlace } from "./place.ts";

export interface CorrectionRead {
  readonly commands: readonly Command[];
  readonly questions: readonly Question[];
  readonly state: State | undefined;
}

type Measure = (env: Env) => State | undefined;

const isNeg = (token: Token | undefined): boolean => token?.sense.kind === "neg" || token?.sense.kind === "not";
const isIdle = (token: Token): boolean =>
  token.sense.kind === "filler" &&
  token.sense.slots === undefined &&
  token.sense.num === undefined &&
  token.sense.feat === undefined;

/** Read a correction, or undefined when the sentence does not take anything back. */
export function readCorrection(
  words: readonly Word[],
  tokens: readonly Token[],
  env: Env,
  measure: Measure,
): CorrectionRead | undefined {
  const first = tokens.findIndex((token) => !isIdle(token));
  const opens = first >= 0 && isNeg(tokens[first]);
  const denies = tokens.some((token) => token.sense.kind === "not");
  if (!opens && !denies) return undefined;
  const last = env.context.last;
  if (last === undefined && env.context.quantity === undefined) return undefined;
  if (!isPlain(talkOf(tokens))) return undefined;
  const span: [number, number] = [words[0]?.start ?? 0, words[words.length - 1]?.end ?? 0];
  const inner = correcting(env);
  const like = last === undefined ? undefined : QUANTITIES[last.quantity];
  const place = readPlace(tokens, 0, tokens.length, env, like);
  const noValue = place !== undefined && (!place.bareNumber || denies || saysPlace(tokens));
  const state = measure(inner);
  const valued = state?.kept.length ? state : undefined;
  if (valued !== undefined && (!noValue || better(valued, place?.bareNumber === true && !saysPlace(tokens)))) {
    return { commands: [{ command: "correct", span }], questions: [], state: valued };
  }
  if (place !== undefined && noValue && last !== undefined) {
    return place.settled.absent.length > 0
      ? { commands: [], questions: [question("no_such_place")], state: undefined }
      : { commands: [{ command: "retag", place: place.place, span }], questions: [], state: undefined };
  }
  if (state !== undefined && state.questions.length > 0) return { commands: [], questions: state.questions, state: undefined };
  return undefined;
}

/** A number is said of a place: "number three", "on three", "that was three". */
function saysPlace(tokens: readonly Token[]): boolean {
  return tokens.some(
    (token, i) => tokens[i + 1]?.sense.num !== undefined && (token.sense.noun !== undefined || token.text === "on"),
  );
}

/** A value with a unit, or one in the band where no place was named, is a new value. */
function better(state: State, bareNumber: boolean): boolean {
  const draft = state.kept[0]?.draft;
  if (draft === undefined) return false;
  return (
    draft.expr.parts[0]?.unit !== undefined ||
    (bareNumber && draft.value.fit === "in") ||
    (state.kept.length > 0 && draft.expr.parts[0]?.figure.kind !== "int")
  );
}

/** The context as the last reading left it. */
function correcting(env: Env): Env {
  const last = env.context.last;
  if (last === undefined) return env;
  const context: Context = { ...env.context, quantity: last.quantity, place: last.place };
  return { ...env, context, place: last.place, correcting: true };
}
