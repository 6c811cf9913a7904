// A place said alone, with or without "go to" before it: the place is taken up, nothing is measured.
import type { Command, Question } from "../../../shared/events/reading.ts";
import type { Env } from "../measure/env.ts";
import { beginnings, indexPhrases } from "../phrases.ts";
import { question } from "../state.ts";
import { isPlain, talkOf } from "../talk.ts";
import { toTokens } from "../tokens.ts";
import type { Token, Word } from "../types.ts";
import { GO_WORDS } from "../vocabulary/commands.ts";
import { readPlace } from "./place.ts";

export interface GotoRead {
  readonly commands: readonly Command[];
  readonly questions: readonly Question[];
}

const OPENERS = indexPhrases(GO_WORDS);

/** Read a place said alone, or undefined when the sentence says more or less than that. */
export function readGoto(words: readonly Word[], heard: readonly Token[], env: Env): GotoRead | undefined {
  const opener = beginnings(OPENERS, words)[0];
  // "on three", "at three" only place; they do not go anywhere.
  const opened = opener !== undefined && opener[0] !== "on" && opener[0] !== "at";
  const tokens = opener === undefined ? heard : toTokens(words.slice(opener.length));
  if (tokens.length === 0 || !isPlain(talkOf(tokens))) return undefined;
  let numbers = 0;
  for (let i = 0; i < tokens.length; i++) {
    const part = partAt(tokens, i, opened);
    if (part === "other") return undefined;
    if (part === "number") numbers++;
  }
  if (numbers === 0 && !opened) return undefined;
  const read = readPlace(tokens, 0, tokens.length, env);
  if (read === undefined) return undefined;
  const span: [number, number] = [words[0]?.start ?? 0, words[words.length - 1]?.end ?? 0];
  // A number too large for a place is a figure said of the place in the context.
  if (read.settled.absent.length > 0) return opened ? { commands: [], questions: [question("no_such_place")] } : undefined;
  return { commands: [{ command: "goto", place: read.place, span }], questions: [] };
}

/** What a token is to a place said alone: its number, a word that may stand beside it, or something else altogether. */
function partAt(tokens: readonly Token[], i: number, opened: boolean): "number" | "word" | "other" {
  const { sense, pause } = tokens[i] as Token;
  if (OTHER_KINDS.has(sense.kind ?? "") || sense.sign === "even" || sense.condition !== undefined) return "other";
  if (sense.num !== undefined && sense.slots === undefined) {
    // A number counts a place only right after the word it counts, or after "go to".
    const before = tokens[i - 1]?.sense;
    const counted = before?.noun !== undefined || before?.slots !== undefined || (opened && i === 0);
    return counted && !pause ? "number" : "other";
  }
  if (sense.slots !== undefined) return "word";
  if (sense.unit !== undefined && sense.kind === undefined) return "other";
  const names = sense.feat !== undefined && sense.noun === undefined && sense.part === undefined && sense.feat !== "bore";
  return names ? "other" : "word";
}
const OTHER_KINDS: ReadonlySet<string> = new Set(["neg", "not", "approx", "between"]);
