// A photo of something named: "take a photo of main two", "picture of the cotter on rod three".
import type { Command } from "../../../shared/events/reading.ts";
import type { Env } from "../measure/env.ts";
import { beginnings, indexPhrases } from "../phrases.ts";
import { toTokens } from "../tokens.ts";
import type { Word } from "../types.ts";
import { COMMAND_WORDS } from "../vocabulary/commands.ts";
import { readPlace } from "./place.ts";

const HEADS = indexPhrases(
  (COMMAND_WORDS.find((row) => row.command === "photo")?.heads ?? []).filter(
    (head) => head.endsWith(" of") || head === "photograph" || head === "snap",
  ),
);

/** The photo command with the place it is of, or undefined. */
export function readPhotoOf(words: readonly Word[], env: Env): Command | undefined {
  const head = beginnings(HEADS, words)[0];
  if (head === undefined || words.length <= head.length) return undefined;
  const tokens = toTokens(words.slice(head.length));
  const place = readPlace(tokens, 0, tokens.length, env)?.place;
  const span: [number, number] = [words[0]?.start ?? 0, words[words.length - 1]?.end ?? 0];
  return place === undefined ? { command: "photo", span } : { command: "photo", place, span };
}
