// What was heard and what was open in, readings, questions and commands out: where the ear's doubt meets the parser.
import type { Context, Note, Parsed, Question, Reading } from "../../shared/events/reading.ts";
import { QUANTITIES } from "../../shared/quantities/registry.ts";
import type { Spec } from "../../shared/spec/spec.ts";
import { parse } from "../speech/index.ts";
import { isFreeNote } from "./text.ts";
import type { Heard } from "./types.ts";

/** Commands that change what was logged, or where the next figure falls, wait until they are heard without doubt. */
const GRAVE_COMMANDS: ReadonlySet<string> = new Set([
  "undo",
  "reject",
  "confirm",
  "retag",
  "correct",
  "copy",
  "done",
  "goto",
  "step",
]);

/** A free note has no words of its own: its clip is kept. */
const SPOKEN_NOTE: Note = { kind: "text", text: "spoken note" };

/** Words that were heard well and come to nothing are asked for again, not passed over. */
const NOT_READ: Question = { code: "heard_unread", say: "say that again" };

const isEmpty = ({ readings, questions, commands, notes }: Parsed) =>
  readings.length + questions.length + commands.length + notes.length === 0;

/** The words in which two sentences differ, where they differ in one place: "fifteen" and "sixteen". */
export function difference(one: string, other: string): readonly [string, string] | undefined {
  const [a, b] = [one, other].map((text) => text.replaceAll(",", "").split(" ")) as [string[], string[]];
  let from = 0;
  while (from < Math.min(a.length, b.length) && a[from] === b[from]) from += 1;
  let behind = 0;
  while (behind < Math.min(a.length, b.length) - from && a.at(-1 - behind) === b.at(-1 - behind)) behind += 1;
  const [left, right] = [a, b].map((words) => words.slice(from, words.length - behind));
  if (left === undefined || right === undefined || left.length === 0 || right.length === 0) return undefined;
  return left.length <= MOST_NAMED && right.length <= MOST_NAMED ? [left.join(" "), right.join(" ")] : undefined;
}

/** More words than this are no question that can be taken in at once. */
const MOST_NAMED = 3;

/** Where the doubt hangs on one word the question names the two; else the sentence is asked for again. */
function askAbout({ text, others }: Heard): Question {
  const [second] = others;
  const two = second === undefined ? undefined : difference(text, second);
  const options = [text, ...others];
  if (two === undefined) return { code: "heard_unsure", say: "say that again", options };
  return { code: "heard_unsure", say: `${two[0]} or ${two[1]}?`, options, about: { words: two } };
}

const waiting = (reading: Reading, because: string): Reading =>
  reading.do === "confirm" ? reading : { ...reading, do: "confirm", because };

/** A read-out with fewer digits than its instrument shows may have lost one on the way. */
function lacksDigits(reading: Reading): boolean {
  const { scale, resolution } = QUANTITIES[reading.quantity];
  if (scale !== "inch_digits" || reading.unit !== "in") return false;
  const decimals = reading.digits.split(".")[1]?.length ?? 0;
  return decimals < Math.round(-Math.log10(resolution)) - 1;
}

/** Parse what was heard. Pure; the same on the phone and in the shop's server. */
export function understand(heard: Heard, context: Context, spec: Spec): Parsed {
  if (heard.verdict === "nothing" || heard.text === "")
    return { text: heard.text, readings: [], questions: [], commands: [], notes: [], unread: [] };
  const parsed = parse(heard.text, context, spec);
  const readings = parsed.readings.map((reading) => (lacksDigits(reading) ? waiting(reading, "digits_missing") : reading));
  const notes = isFreeNote(heard) ? [SPOKEN_NOTE] : parsed.notes;
  if (isEmpty(parsed) && notes.length === 0) return heard.verdict === "ok" ? { ...parsed, questions: [NOT_READ] } : parsed;
  if (heard.verdict === "ok") return { ...parsed, readings, notes };
  // In doubt: readings wait for a yes, what strikes or moves a reading is asked first, and the question names the words. What changes
  // nothing in the book is done without one.
  const commands = parsed.commands.filter(({ command }) => !GRAVE_COMMANDS.has(command));
  const harmless = commands.length > 0 && commands.length === parsed.commands.length && readings.length + notes.length === 0;
  return {
    ...parsed,
    notes,
    readings: readings.map((reading) => waiting(reading, "heard_unsure")),
    commands,
    questions: harmless ? parsed.questions : [...parsed.questions, askAbout(heard)],
  };
}

/** Values that can be followed by more ("twelve" by "and a half") are not whole until the speaker is silent for long. */
const OPEN_ENDED = /(?:teen|ty|one|two|three|four|five|six|seven|eight|nine|ten|eleven|twelve|and)$/;

/** Whether an utterance can be taken as ended: understood without a question, and nothing more can belong to it. */
export function isWhole(heard: Heard, parsed: Parsed): boolean {
  if (heard.verdict !== "ok" || parsed.questions.length > 0) return false;
  const { readings, commands } = parsed;
  // "cylinder three" said alone opens a place, but most often a value follows it.
  if (readings.length === 0)
    return commands.length > 0 && commands.every(({ command }) => command !== "goto" && command !== "undo");
  const last = readings.at(-1);
  if (last === undefined) return false;
  const digitsWhole =
    QUANTITIES[last.quantity].scale === "inch_digits" &&
    (last.digits.split(".")[1]?.length ?? 0) >= Math.round(-Math.log10(QUANTITIES[last.quantity].resolution));
  return digitsWhole || !OPEN_ENDED.test(heard.text);
}
