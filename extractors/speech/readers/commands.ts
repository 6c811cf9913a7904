// Commands spoken whole or as a paused part of the sentence: words in, commands and the words left over out.
import type { Command } from "../../../shared/events/reading.ts";
import type { Word } from "../types.ts";
import { COMMAND_WORDS } from "../vocabulary/commands.ts";

type Name = Command["command"];

const PHRASES = new Map<string, Name>();
let longest = 0;
function know(phrase: string, name: Name): void {
  if (!PHRASES.has(phrase)) PHRASES.set(phrase, name);
  longest = Math.max(longest, phrase.split(" ").length);
}
// Whole phrases first, so that one meant for a command is never made up from another's head and tail.
for (const { command, alone } of COMMAND_WORDS) for (const phrase of alone) know(phrase, command);
for (const { command, heads, tails } of COMMAND_WORDS) {
  for (const head of heads) for (const tail of tails) know(`${head} ${tail}`, command);
}

/** Words that may stand before or after a command without changing it. */
const SOFT = new Set(
  "um uh er erm ah ok okay well so please and then now right alright oh oops sorry wait damn hey just lets actually thanks".split(
    " ",
  ),
);

function matchAt(words: readonly Word[], from: number, to: number): { name: Name; end: number } | undefined {
  let text = "";
  let best: { name: Name; end: number } | undefined;
  for (let j = from; j < to && j < from + longest; j++) {
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
    if (part !== undefined && !opensMore(part[0]?.command, i < words.length)) commands.push(...part);
    else for (let j = from; j < i; j++) rest.push(words[j] as Word);
    from = i;
  }
  return { commands, rest };
}

/** A "no", "scratch that" or "again" before more words is read with them: it takes back, or belongs to, what follows. */
function opensMore(command: Name | undefined, more: boolean): boolean {
  return more && (command === "reject" || command === "undo" || command === "repeat");
}

/** "yes, confirm" is one yes; "no, scratch that" is an undo. */
function merged(commands: readonly Command[]): Command[] {
  const out: Command[] = [];
  for (const command of commands) {
    const last = out[out.length - 1];
    if (last?.command === command.command) continue;
    if (last?.command === "reject" && command.command === "undo") out.pop();
    out.push(command);
  }
  return out;
}
