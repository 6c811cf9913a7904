// Facts that are no figures: free notes, castle nut states, cotters, passes, statements, exchanged parts, cracks.
import type { Note, Question } from "../../../shared/events/reading.ts";
import type { Env } from "../measure/env.ts";
import { question } from "../state.ts";
import { toTokens } from "../tokens.ts";
import type { Word } from "../types.ts";
import { NOTE_KEYS, STATEMENTS } from "../vocabulary/notes.ts";
import { readPlace } from "./place.ts";

/** A note found in the text; `only` when the sentence holds nothing else to read. */
export interface NoteRead {
  readonly note: Note;
  readonly only: boolean;
  readonly question: Question | undefined;
}

const FREE =
  /^\s*(?:(?:ok|okay|um|uh|so)[\s,]+)*(?:make (?:a )?note(?: that)?|take (?:a )?note(?: that)?|note(?: that)?|remark|comment|for the record|memo)(?=$|[\s,:;.–-])[\s,:;.–-]*(.*)$/is;
const FREE_KEYS = new Set(["note", "remark", "comment", "record", "memo"]);
/** A free note's own word stands among the first few. */
const FREE_WITHIN = 5;
/** Statements are short; longer text is talk. */
const LONGEST = 200;
const UNIT = /\b(?:thou|tenths?|inch(?:es)?|pounds?|degrees|psi|cc|grams|microns?|newton)\b|\d\.\d/;

/** Read a note out of the utterance, or undefined. */
export function readNote(text: string, words: readonly Word[], env: Env): NoteRead | undefined {
  const free = words.slice(0, FREE_WITHIN).some((word) => FREE_KEYS.has(word.text)) ? FREE.exec(text) : null;
  if (free?.[1] !== undefined && free[1].trim() !== "") {
    return { note: { kind: "text", text: free[1].trim(), span: [0, text.length] }, only: true, question: undefined };
  }
  if (text.length > LONGEST || !words.some((word) => NOTE_KEYS.has(word.text))) return undefined;
  const lower = words.map((word) => word.text).join(" ");
  for (const statement of STATEMENTS) {
    if (!statement.pattern.test(lower)) continue;
    const note: Note = { kind: statement.kind, text: text.trim(), span: [0, text.length] };
    if (statement.state !== undefined) note.state = statement.state;
    const place = placeIn(words, env);
    if (place !== undefined) note.place = place;
    const only = !UNIT.test(lower) && statement.kind !== "castle_state" && !(statement.kind === "crack" && SIZED.test(lower));
    // "crack" and "crank" sound alike, and a crack is a finding: it always waits for a yes.
    const asks =
      statement.kind === "crack" && statement.state === "found"
        ? question("ambiguous", ["crack", "crank"])
        : statement.kind === "inspection" &&
            NUMBER_ONLY.test(lower) &&
            env.context.quantity === undefined &&
            env.context.step === undefined
          ? question("which_part")
          : undefined;
    return { note, only, question: asks };
  }
  return undefined;
}

/** "number three looks good": of what, nothing told. */
const NUMBER_ONLY = /^(?:number|num) (?:[a-z]+|\d+) (?:is|looks?|seems)\b/;

/** A crack with its length is a reading. */
const SIZED = /\b(?:half|quarters?|eighths?|sixteenths?|seconds?|fourths?|point|inch|inches|thou|long)\b|\d\/\d|\./;

function placeIn(words: readonly Word[], env: Env): Note["place"] | undefined {
  const tokens = toTokens(words);
  return (
    readPlace(tokens, 0, tokens.length, env)?.place ??
    (env.context.place && Object.keys(env.context.place).length > 0 ? env.context.place : undefined)
  );
}
