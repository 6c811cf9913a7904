// Commands spoken whole or as a paused part of the sentence: words in, commands and the words left over out.
import type { Command } from "../../../shared/events/reading.ts";
import type { Word } from "../types.ts";
import { COMMAND_PHRASES } from "../vocabulary/commands.ts";

type Name = Command["command"];

const PHRASES = new Map<string, Name>();
for (const [name, phrases] of Object.entries(COMMAND_PHRASES)) for (const phrase of phrases) PHRASES.set(phrase, name as Name);

/** Words that may stand before or after a command without changing it. */
const SOFT = new Set([
  "um",
  "uh",
  "er",
  "erm",
  "ah",
  "ok",
  "okay",
  "well",
  "so",
  "please",
  "and",
  "then",
  "now",
  "right",
  "alright",
  "oh",
]);

/** The longest phrase has six words. */
const LONGEST = 7;

function matchAt(words: readonly Word[], from: number, to: number): { name: Name; end: number } | undefined {
  let text = "";
  let best: { name: Name; end: number } | undefined;
  for (let j = from; j < to && j < from + LONGEST; j++) {
    text = j === from ? (words[j] as Word).text : `${text} ${(words[j] as Word).text}`;
    const name = PHRASES.get(text);
    if (name !== undefined) best = { name, end: j + 1 };
  }
  return best;
}

const isSoft = (word: Word | undefined): boolean => word !== undefined && SOFT.has(word.text);

/** Whether words[from, to) are commands and nothing else. */
function commandsIn(words: readonly Word[], from: number, to: number): Command[] | undefined {
  const out: Command[] = [];
  let i = from;
  while (i < to) {
    // A soft word may belong to a phrase ("okay confirm"), so the phrase is tried first.
    const match = matchAt(words, i, to);
    if (match === undefined) {
      if (!isSoft(words[i])) return undefined;
      i++;
      continue;
    }
    const start = (words[i] as Word).start;
    const end = (words[match.end - 1] as Word).end;
    out.push({ command: match.name, span: [start, end] });
    i = match.end;
  }
  return out.length > 0 ? out : undefined;
}

export interface CommandsRead {
  readonly commands: readonly Command[];
  /** Words that were no command. */
  readonly rest: readonly Word[];
}

/** Take out every paused part of the sentence that is a command; a sentence with no pauses must be one as a whole. */
export function readCommands(words: readonly Word[]): CommandsRead {
  const whole = commandsIn(words, 0, words.length);
  if (whole !== undefined) return { commands: merged(whole), rest: [] };
  const commands: Command[] = [];
  const rest: Word[] = [];
  let from = 0;
  for (let i = 1; i <= words.length; i++) {
    if (i < words.length && !(words[i] as Word).pause) continue;
    const part = commandsIn(words, from, i);
    // A "no" or "scratch that" before more words takes them back and is read with them.
    const corrects = part?.some((c) => c.command === "reject" || c.command === "undo") && i < words.length;
    if (part !== undefined && !corrects && !(part[0]?.command === "repeat" && i < words.length)) commands.push(...part);
    else for (let j = from; j < i; j++) rest.push(words[j] as Word);
    from = i;
  }
  return { commands, rest };
}

/** "no, wrong" is one refusal; "yes, confirm" one yes. */
function merged(commands: readonly Command[]): Command[] {
  const out: Command[] = [];
  for (const command of commands) {
    const last = out[out.length - 1];
    const sameName = last?.command === command.command;
    if (sameName) continue;
    // "no, scratch that": the undo says it all.
    if (last?.command === "reject" && command.command === "undo") out.pop();
    out.push(command);
  }
  return out;
}
