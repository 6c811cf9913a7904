// Whether an utterance is for the book: counts the words that speak of the bench and those that speak of the world.
import type { Token, Word } from "./types.ts";

export interface Talk {
  /** Words of known talk. */
  readonly strong: number;
  /** Words of no vocabulary. */
  readonly unknown: number;
  /** Words that mean something at the bench. */
  readonly known: number;
}

/** Count a sentence's words by what they are. */
export function talkOf(tokens: readonly Token[]): Talk {
  let strong = 0;
  let unknown = 0;
  let known = 0;
  for (let i = 0; i < tokens.length; i++) {
    const token = tokens[i] as Token;
    const { sense } = token;
    // A misheard unit word right after a number stands where only a unit can.
    const afterNumber = !token.pause && tokens[i - 1]?.sense.num !== undefined;
    const bench =
      sense.num !== undefined ||
      (sense.unit !== undefined && (!sense.repaired || afterNumber)) ||
      sense.feat !== undefined ||
      sense.noun !== undefined ||
      sense.slots !== undefined ||
      sense.part !== undefined;
    if (token.unknown) unknown++;
    else if (bench) known++;
    else if (sense.kind === "talk") strong++;
    // A misheard unit word that stands where no unit can is an ordinary word.
    else if (sense.repaired && sense.kind === undefined) unknown++;
  }
  return { strong, unknown, known };
}

/** Nothing but bench words and fillers. */
export function isPlain(talk: Talk): boolean {
  return talk.strong === 0 && talk.unknown === 0;
}

/** A few stray words beside a sentence that is otherwise all bench. */
export function isMostlyBench(talk: Talk): boolean {
  return (talk.strong * 2 + talk.unknown) * 2 <= talk.known;
}

const CLOCK =
  /^(?:its|it is|thats|now|its about|its nearly|its almost|its just) (?:a )?(?:five|ten|quarter|twenty|twenty five|half|5|10|20|25) (?:to|past|till|til) (?:one|two|three|four|five|six|seven|eight|nine|ten|eleven|twelve|\d\d?)(?: already| now)?$/;

/** "it's ten to five" tells the time. */
export function isClock(words: readonly Word[]): boolean {
  return words.length <= LONGEST_CLOCK && CLOCK.test(words.map((word) => word.text).join(" "));
}
const LONGEST_CLOCK = 8;
