// General English text into words that keep what the bench's words drop: capitals, glue, the marks around a figure.
import type { Sense, Token } from "../types.ts";
import { NUMBER_WORDS } from "../vocabulary/numbers.ts";

export interface GeneralWord extends Token {
  /** As written, with its capitals. */
  readonly raw: string;
  /** Written in figures. */
  readonly figure: boolean;
  /** Joined to the word before it by a hyphen. */
  readonly hyphen: boolean;
  /** No space and no mark between it and the word before. */
  readonly glued: boolean;
  /** The mark right before it, if any: "$", "°", ",", ":". */
  readonly mark: string;
  /** The character right after it. */
  readonly after: string;
}

const PIECE = /[A-Za-zµμ]+|\d[\d,]*\d(?:\.\d+)?|\d(?:\.\d+)?|\.\d+|[^\s\w]/g;
const TENS = /^(twenty|thirty|forty|fourty|fifty|sixty|seventy|eighty|ninety)(one|two|three|four|five|six|seven|eight|nine)$/;
const MANY: Readonly<Record<string, string>> = { thousands: "thousand", halfs: "halves" };
/** The sense of a word that means nothing to a number. */
export const NONE: Sense = {};
const AND: Sense = { kind: "and" };
const ARTICLE: Sense = { kind: "article" };

function senseOf(text: string): Sense {
  if (text === "and") return AND;
  if (text === "a" || text === "an") return ARTICLE;
  const num = Object.hasOwn(NUMBER_WORDS, text) ? NUMBER_WORDS[text] : undefined;
  // Denominators are read apart, and figures by their own guard.
  return num === undefined || num.t === "den" || num.t === "half" || num.t === "quarter" || num.t === "repeat" ? NONE : { num };
}

/** A mark between words: it pauses unless it joins. */
const JOINS: ReadonlySet<string> = new Set(["-", "—", "–", "'"]);

const isDigitStart = (raw: string): boolean => {
  const c = raw.charCodeAt(0);
  return (c >= 48 && c <= 57) || (c === 46 && raw.length > 1);
};

const isMark = (raw: string): boolean => {
  const c = raw.charCodeAt(0);
  const letter = (c >= 97 && c <= 122) || (c >= 65 && c <= 90) || c === 181 || c === 956;
  return !letter && !isDigitStart(raw);
};

/** Split general text. */
export function generalWords(text: string): GeneralWord[] {
  const out: GeneralWord[] = [];
  let mark = "";
  let pause = false;
  for (const match of text.matchAll(PIECE)) {
    const raw = match[0];
    if (isMark(raw)) {
      mark = raw;
      if (!JOINS.has(raw)) pause = true;
      continue;
    }
    const last = out[out.length - 1];
    // "a thousand, one hundred": the comma parts thousands, not numbers.
    if (mark === "," && last?.sense.num?.t === "thousand") pause = false;
    push(out, raw, match.index, text[match.index + raw.length] ?? "", mark, pause);
    mark = "";
    pause = false;
  }
  return out;
}

function push(out: GeneralWord[], raw: string, start: number, after: string, mark: string, pause: boolean): void {
  const end = start + raw.length;
  const glued = out[out.length - 1]?.end === start;
  const figure = isDigitStart(raw);
  const base = { raw, figure, start, end, pause, hyphen: mark !== "'" && JOINS.has(mark), glued, mark, after, unknown: false };
  if (figure) {
    out.push({ ...base, text: raw.replaceAll(",", ""), sense: NONE });
    return;
  }
  const lower = raw.toLowerCase();
  const tens = TENS.exec(lower);
  if (tens?.[1] !== undefined && tens[2] !== undefined) {
    out.push({ ...base, text: tens[1], sense: senseOf(tens[1]) });
    out.push({ ...base, text: tens[2], sense: senseOf(tens[2]), pause: false, hyphen: true, glued: false, mark: "" });
    return;
  }
  const text = MANY[lower] ?? lower;
  out.push({ ...base, text, sense: senseOf(text) });
}
