// What was heard and what was open in, readings, questions and commands out: where the ear's doubt meets the parser.
import type { Context, Note, Parsed, Question, Reading } from "../../shared/events/reading.ts";
import { QUANTITIES } from "../../shared/quantities/registry.ts";
import type { Spec } from "../../shared/spec/spec.ts";
import { parse } from "../speech/index.ts";
import { TENTHS_ARE_USUAL } from "./grammar/values.ts";
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

const TOO_LOUD: Question = { code: "too_loud", say: "too loud, again" };

/** Words that were heard well and come to nothing are asked for again, not passed over. */
const NOT_READ: Question = { code: "heard_unread", say: "say that again" };

const isEmpty = ({ readings, questions, commands, notes }: Parsed) =>
  readings.length + questions.length + commands.length + notes.length === 0;

const silent = (text: string, questions: readonly Question[]): Parsed => ({
  text,
  readings: [],
  questions: [...questions],
  commands: [],
  notes: [],
  unread: [],
});

/** A question for the words in doubt alone: "five or nine?", else "was that ...?". */
function askAbout(heard: Heard): Question {
  const disputed = heard.doubt.words.map((index) => heard.words[index]?.word ?? "").filter((word) => word !== "");
  const options = [heard.text, ...heard.doubt.others];
  const say = disputed.length > 0 && disputed.length <= 2 ? `${disputed.join(" ")}, is that right?` : "say that again";
  return { code: "heard_unsure", say, options, about: { words: disputed } };
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

const TENTHS: Question = { code: "heard_unsure", say: "tenths, is that right?", about: { words: ["tenths"] } };

/** "Thou" and "tenths" sound alike in some voices, and the slip makes a tenth of the size: it passes no band check. */
function isOddTenths({ text }: Heard, reading: Reading): boolean {
  const { scale, resolution } = QUANTITIES[reading.quantity];
  if (reading.unit !== "in" || !/\btenths?\b/.test(text)) return false;
  if (TENTHS_ARE_USUAL.has(reading.quantity)) return Math.abs(reading.value) <= resolution;
  return scale === "thou";
}

/** Words beside which nothing else tells that a sentence was about another thing than what is open. */
const BARE_WORDS = 2;

/** "Side five" with a bore open: one word names another quantity, and neither place nor unit was said. */
function isBareChange({ words }: Heard, { quantity, implied }: Reading, open: Context): boolean {
  if (open.quantity === undefined || quantity === open.quantity || words.length > BARE_WORDS) return false;
  return implied.includes("unit") && implied.some((part) => part !== "unit" && part !== "quantity");
}

/** "Seventeen down" for "seventeen thou": the slip turns the reading round. With the unit said, both words stand. */
const isOddDown = ({ text }: Heard, { implied }: Reading): boolean => implied.includes("unit") && /\bdown$/.test(text);

/** "Oh oh oh" and no unit: a breath may be heard as that, and a size of nothing is seldom measured. */
const isBareNothing = ({ text }: Heard, { value, implied }: Reading): boolean =>
  value === 0 && implied.includes("unit") && /\b(?:oh|zero)$/.test(text);

/** Parse what was heard. Pure; the same on the phone and in the shop's server. */
export function understand(heard: Heard, context: Context, spec: Spec): Parsed {
  if (heard.verdict === "too_loud") return silent("", [TOO_LOUD]);
  if (heard.verdict === "nothing" || heard.text === "") return silent(heard.text, []);
  const parsed = parse(heard.text, context, spec);
  const odd = parsed.readings.some((reading) => isOddTenths(heard, reading));
  const readings = parsed.readings.map((reading) => {
    if (lacksDigits(reading)) return waiting(reading, "digits_missing");
    if (isBareChange(heard, reading, context) || isOddDown(heard, reading) || isBareNothing(heard, reading))
      return waiting(reading, "heard_unsure");
    return isOddTenths(heard, reading) ? waiting(reading, "tenths_unusual") : reading;
  });
  const notes = isFreeNote(heard) ? [SPOKEN_NOTE] : parsed.notes;
  if (isEmpty(parsed) && notes.length === 0) return heard.verdict === "ok" ? { ...parsed, questions: [NOT_READ] } : parsed;
  if (heard.verdict === "ok") return { ...parsed, readings, notes, questions: [...parsed.questions, ...(odd ? [TENTHS] : [])] };
  // In doubt: readings wait for a yes, what strikes or moves a reading is asked first, and the question names the words.
  return {
    ...parsed,
    notes,
    readings: readings.map((reading) => waiting(reading, "heard_unsure")),
    commands: parsed.commands.filter(({ command }) => !GRAVE_COMMANDS.has(command)),
    questions: [...parsed.questions, askAbout(heard)],
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
