// General English text into words that keep what the bench's words drop: capitals, glue, the marks around a figure.
import type { Sense, Token } from "../types.ts";
import { NUMBER_WORDS } from "../vocabulary/numbers.ts";

export interface GeneralWord extends Token {
  /** As written, with its capitals. */
  readonly raw: string;
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
const NONE: Sense = {};
const AND: Sense = { kind: "and" };
const ARTICLE: Sense = { kind: "article" };

function senseOf(text: string): Sense {
  if (text === "and") return AND;
  if (text === "a" || text === "an") return ARTICLE;
  const num = Object.hasOwn(NUMBER_WORDS, text) ? NUMBER_WORDS[text] : undefined;
  // Denominators are read apart, and figures by their own guard.
  return num === undefined || num.t === "den" || num.t === "half" || num.t === "quarter" || num.t === "repeat" ? NONE : { num };
}

/** Split general text. */
export function generalWords(text: string): GeneralWord[] {
  const out: GeneralWord[] = [];
  let mark = "";
  let pause = false;
  PIECE.lastIndex = 0;
  for (let match = PIECE.exec(text); match !== null; match = PIECE.exec(text)) {
    const raw = match[0];
    const start = match.index;
    const c = raw.charCodeAt(0);
    const letter = (c >= 65 && c <= 90) || (c >= 97 && c <= 122) || c > 127;
    const digit = (c >= 48 && c <= 57) || (c === 46 && raw.length > 1);
    if ((!letter && !digit) || raw === "—" || raw === "–" || raw === "°") {
      mark = raw;
      if (raw !== "-" && raw !== "—" && raw !== "–" && raw !== "'") pause = true;
      continue;
    }
    const end = start + raw.length;
    const last = out[out.length - 1];
    const glued = last !== undefined && last.end === start;
    const hyphen = mark === "-" || mark === "—" || mark === "–";
    const lower = MANY[raw.toLowerCase()] ?? raw.toLowerCase();
    const base = { raw, start, end, pause, hyphen, glued, mark, after: text[end] ?? "", unknown: false };
    // "a thousand, one hundred": the comma parts thousands, not numbers.
    if (mark === "," && last?.sense.num?.t === "thousand") base.pause = false;
    const tens = letter ? TENS.exec(lower) : null;
    if (tens?.[1] !== undefined && tens[2] !== undefined) {
      out.push({ ...base, text: tens[1], sense: senseOf(tens[1]) });
      out.push({ ...base, text: tens[2], sense: senseOf(tens[2]), pause: false, hyphen: true, glued: false, mark: "" });
    } else out.push({ ...base, text: digit ? raw.replaceAll(",", "") : lower, sense: digit ? NONE : senseOf(lower) });
    mark = "";
    pause = false;
  }
  return out;
}
