// The sentence as it may have been said: misheard words put back, tried only beside the sentence as it stands.
import type { Word } from "./types.ts";
import { DIGIT_AFTER, DIGIT_HEARD_AS, GRAVE_REPAIRS, SURE_REPAIRS, TOO, TOO_WHAT, WORD_HEARD_AS } from "./vocabulary/misheard.ts";
import { NUMBER_WORDS } from "./vocabulary/numbers.ts";
import { UNIT_WORDS } from "./vocabulary/units.ts";

export interface Repaired {
  readonly words: readonly Word[];
  /** What was written and what it was read as: "to>two". */
  readonly repairs: readonly string[];
  readonly grave: boolean;
  /** Score in favour: a digit heard right after the noun that needs one, a phrase that means nothing as written. */
  readonly bonus: number;
}

const DIGITS = ["oh", "one", "two", "three", "four", "five", "six", "seven", "eight", "nine", "ten"];
/** Longest misheard phrase, in words. */
const LONGEST = 3;
const AFTER_NOUN = 3;
const SURE = 8;

/** Put trade words and digits back where a misheard form stands; undefined when there is none. */
export function repaired(words: readonly Word[], digits: boolean, trade: boolean): Repaired | undefined {
  const out: Word[] = [];
  const repairs: string[] = [];
  let grave = false;
  let bonus = 0;
  for (let i = 0; i < words.length; ) {
    const hit = trade ? tradeAt(words, i) : undefined;
    const word = words[i] as Word;
    if (hit !== undefined) {
      const end = (words[hit.to - 1] as Word).end;
      hit.said.split(" ").forEach((text, k) => {
        out.push({ text, start: word.start, end, pause: word.pause && k === 0 });
      });
      repairs.push(`${hit.written}>${hit.said}`);
      if (GRAVE_REPAIRS.has(hit.written)) grave = true;
      if (SURE_REPAIRS.has(hit.written)) bonus += SURE;
      if (isFootPounds(words, i, hit.written)) bonus += AFTER_NUMBER;
      i = hit.to;
      continue;
    }
    const said = digits ? digitAt(words, i) : undefined;
    if (said !== undefined) {
      out.push({ ...word, text: said });
      repairs.push(`${word.text}>${said}`);
      bonus += digitBonus(words, i);
    } else out.push(word);
    i++;
  }
  return repairs.length === 0 ? undefined : { words: out, repairs, grave, bonus };
}

/** What speaks for a digit at i: a number it must begin or end, a unit right after it, a noun that wants it. */
function digitBonus(words: readonly Word[], i: number): number {
  const before = words[i - 1]?.text ?? "";
  const counted = !words[i]?.pause && DIGIT_AFTER.has(before) ? AFTER_NOUN : 0;
  if (isOpen(words, i)) return SURE + counted;
  // "twenty to thou" may have been a stammer: no more is said for it than for any other digit.
  return counted + (UNIT_STARTS.has(words[i + 1]?.text ?? "") && !isNumberWord(before) ? BEFORE_UNIT : 0);
}

/** "to and a half", "too and seven tenths", "a thou and for tenths": only a number can stand there. */
function isOpen(words: readonly Word[], i: number): boolean {
  const next = words[i + 1]?.text ?? "";
  if (UNIT_STARTS.has(next) && words[i - 1]?.text === "and") return true;
  if (next !== "and" || words[i + 1]?.pause) return false;
  const more = words[i + 2]?.text ?? "";
  return isNumberWord(more) || isNumberWord(words[i + 3]?.text ?? "");
}
const isNumberWord = (text: string): boolean => Object.hasOwn(NUMBER_WORDS, text) || /^\d/.test(text);

/** A digit right before a unit is doubted at least: "two thou for tenths". */
const BEFORE_UNIT = 2;
const UNIT_STARTS: ReadonlySet<string> = new Set(
  ["thou", "tenth", "in", "mm", "um", "ft_lbf", "in_lbf", "N_m", "psi", "pound", "g", "cc", "degree"].flatMap((unit) =>
    UNIT_WORDS[unit as keyof typeof UNIT_WORDS].map((phrase) => phrase.split(" ")[0] ?? "").filter((word) => word.length > 2),
  ),
);

/** "thirty-five four pounds": after a number that four cannot join, four is foot. */
function isFootPounds(words: readonly Word[], i: number, written: string): boolean {
  if (!written.endsWith(" pounds")) return false;
  const before = words[i - 1]?.text ?? "";
  const atom = NUMBER_WORDS[before];
  return atom === undefined ? /^\d+$/.test(before) : atom.t === "digit" || atom.t === "teen";
}
const AFTER_NUMBER = 6;

const FIRST_WORDS = new Set(Object.keys(WORD_HEARD_AS).map((phrase) => phrase.split(" ")[0] ?? ""));

function tradeAt(words: readonly Word[], i: number): { written: string; said: string; to: number } | undefined {
  if (!FIRST_WORDS.has((words[i] as Word).text)) return undefined;
  let text = "";
  let found: { written: string; said: string; to: number } | undefined;
  for (let j = i; j < words.length && j < i + LONGEST; j++) {
    if (j > i && (words[j] as Word).pause) break;
    text = j === i ? (words[j] as Word).text : `${text} ${(words[j] as Word).text}`;
    const said = Object.hasOwn(WORD_HEARD_AS, text) ? WORD_HEARD_AS[text] : undefined;
    // "I have a thou" says what was got; only without a subject is "have" half.
    const subject = SURE_REPAIRS.has(text) && SUBJECTS.has(words[i - 1]?.text ?? "");
    if (said !== undefined && !subject) found = { written: text, said, to: j + 1 };
  }
  return found;
}
const SUBJECTS = new Set(["i", "we", "you", "they", "to", "should", "now"]);

/** Whether a repair put a digit where another word was written. */
export const isDigitRepair = (repair: string): boolean => DIGITS.includes(repair.slice(repair.indexOf(">") + 1));

/** "for", "to" and the like are digits only when no article or noun phrase follows them, and "too" not before what is too much. */
function digitAt(words: readonly Word[], i: number): string | undefined {
  const word = (words[i] as Word).text;
  const atom = Object.hasOwn(DIGIT_HEARD_AS, word) ? DIGIT_HEARD_AS[word] : undefined;
  if (atom === undefined || !("v" in atom)) return undefined;
  const next = words[i + 1]?.text ?? "";
  const excess = TOO.has(word) && TOO_WHAT.has(next) && !DIGIT_AFTER.has(words[i - 1]?.text ?? "");
  return excess || PHRASE_STARTS.has(next) ? undefined : DIGITS[atom.v as number];
}
const PHRASE_STARTS = new Set([
  "the",
  "a",
  "an",
  "number",
  "cylinder",
  "main",
  "rod",
  "this",
  "that",
  "it",
  "me",
  "you",
  "be",
  "of",
]);
