// No figure was read: a place to go to, a question for the figure, or nothing because nothing was meant for the book.
import type { Command, Question } from "../../../shared/events/reading.ts";
import type { Place } from "../../../shared/places/places.ts";
import { QUANTITIES } from "../../../shared/quantities/registry.ts";
import type { QuantityId } from "../../../shared/quantities/types.ts";
import type { Env } from "../measure/env.ts";
import { namedBy } from "../measure/names.ts";
import { question } from "../state.ts";
import { isPlain, talkOf } from "../talk.ts";
import type { Token, Word } from "../types.ts";
import { TALKED_UNITS } from "../vocabulary/units.ts";
import { readPlace } from "./place.ts";

export interface SilenceRead {
  readonly commands: readonly Command[];
  readonly questions: readonly Question[];
  readonly unread: readonly string[];
}

const NOTHING = { commands: [], questions: [] };

/**
 * Read a sentence without a figure. `refused` tells that a figure was there and was refused as talk; `unsaid` is the quantity that the
 * figure would have been of, where that is known.
 */
export function readSilence(
  words: readonly Word[],
  tokens: readonly Token[],
  env: Env,
  refused: boolean,
  unsaid?: QuantityId,
): SilenceRead {
  const talk = talkOf(tokens);
  const unread = tokens.filter((token) => token.unknown || token.sense.kind === "talk").map((token) => token.text);
  if (!isPlain(talk) || refused) return { ...NOTHING, unread };
  const span: [number, number] = [words[0]?.start ?? 0, words[words.length - 1]?.end ?? 0];
  const place = readPlace(tokens, 0, tokens.length, env, unsaid && QUANTITIES[unsaid]);
  const names = namesIn(tokens);
  const named = names.length > 0;
  const figureOf = (where?: Place) => figureAsked(named && unsaid !== undefined ? [unsaid] : names, where);
  const ranged = tokens.some(
    (token) => token.sense.kind === "between" || (token.sense.unit !== undefined && token.sense.kind === undefined),
  );
  if (place !== undefined && (unsaid !== undefined || !place.bareNumber) && !ranged) {
    if (place.settled.absent.length > 0) return { commands: [], questions: [question("no_such_place")], unread };
    const commands: Command[] = [{ command: "goto", place: place.place, span }];
    return { commands, questions: named ? [figureOf(place.place)] : [], unread };
  }
  const figure = tokens.some((token) => token.sense.num !== undefined && !isPronoun(token));
  const vague = tokens.some((token) => token.sense.kind === "approx" || token.sense.kind === "between");
  const unit = tokens.some((token) => token.sense.unit !== undefined && token.sense.kind === undefined && !token.sense.repaired);
  if (vague && (unit || figure)) return { commands: [], questions: [question("approximate")], unread };
  const talked = tokens.some((token) => TALKED_UNITS.has(token.sense.unit ?? ""));
  if (figure && talked && !named && env.context.quantity === undefined) return { ...NOTHING, unread };
  if (figure)
    return {
      commands: [],
      questions: [question(env.context.quantity === undefined ? "which_quantity" : "doubtful_number")],
      unread,
    };
  const sign = tokens.some((token) => token.sense.sign !== undefined);
  if (named || (env.context.quantity !== undefined && (sign || tokens.some((token) => COUNTS.test(token.text))))) {
    return { commands: [], questions: [figureOf()], unread };
  }
  return { ...NOTHING, unread };
}

/** Vague counts that ask for the figure even alone. */
const COUNTS = /\b(?:couple|few|several)\b/;

const isPronoun = (token: Token): boolean => token.text === "one";

/** Asks for a figure; what it is of, or may be of, is in hand from then on. */
function figureAsked(quantities: readonly QuantityId[], place?: Place): Question {
  const about = { quantities: [...quantities], ...(place === undefined ? {} : { place }) };
  return question("need_number", undefined, quantities.length === 0 ? undefined : about);
}

/** The quantities that the words said name most fully. */
function namesIn(tokens: readonly Token[]): readonly QuantityId[] {
  const feats = new Set<string>();
  for (const token of tokens) if (token.sense.feat !== undefined) feats.add(token.sense.feat);
  const named = [...namedBy(feats)];
  const most = Math.max(...named.map(([, { words }]) => words));
  return named.filter(([, { words }]) => words === most).map(([id]) => id);
}
