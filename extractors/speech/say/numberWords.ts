// Numbers as words: cardinals, digit-by-digit read-outs, pairs, decimals. In go integers or digit text, out come words.

const ONES = ["zero", "one", "two", "three", "four", "five", "six", "seven", "eight", "nine", "ten", "eleven", "twelve"] as const;
const TEENS = ["thirteen", "fourteen", "fifteen", "sixteen", "seventeen", "eighteen", "nineteen"] as const;
const TENS = ["twenty", "thirty", "forty", "fifty", "sixty", "seventy", "eighty", "ninety"] as const;

/** A whole number below a million as words: "eight hundred and eighty one". */
export function cardinal(n: number, and = true): string {
  if (n < 13) return ONES[n] ?? "";
  if (n < 20) return TEENS[n - 13] ?? "";
  if (n < 100) {
    const ten = TENS[Math.trunc(n / 10) - 2] ?? "";
    return n % 10 === 0 ? ten : `${ten} ${ONES[n % 10]}`;
  }
  if (n < 1000) return joined(`${ONES[Math.trunc(n / 100)]} hundred`, n % 100, and);
  const rest = n % 1000;
  const head = `${cardinal(Math.trunc(n / 1000), and)} thousand`;
  return rest === 0 ? head : rest < 100 ? joined(head, rest, and) : `${head} ${cardinal(rest, and)}`;
}

function joined(head: string, rest: number, and: boolean): string {
  if (rest === 0) return head;
  return `${head}${and ? " and" : ""} ${cardinal(rest, and)}`;
}

/** Digits one by one: "38805" is "three eight eight oh five". */
export function digitByDigit(text: string, zero = "oh"): string {
  return [...text].map((d) => (d === "0" ? zero : (ONES[Number(d)] ?? ""))).join(" ");
}

/** Repeated digits by "double": "39002" is "three nine double oh two"; undefined when no digit repeats. */
export function withDoubles(text: string): string | undefined {
  if (!/(\d)\1/.test(text)) return undefined;
  const words: string[] = [];
  for (let i = 0; i < text.length; i++) {
    const d = text[i] ?? "";
    const word = d === "0" ? "oh" : (ONES[Number(d)] ?? "");
    if (text[i + 1] === d) {
      words.push(`double ${word}`);
      i++;
    } else words.push(word);
  }
  return words.join(" ");
}

/** First digit, then pairs: "38841" is "three eighty eight forty one"; undefined where a pair would lead with a zero. */
export function inPairs(text: string): string | undefined {
  const odd = text.length % 2;
  const pairs = text.slice(odd).match(/../g) ?? [];
  if (pairs.some((pair) => pair.startsWith("0")) || pairs.length === 0) return undefined;
  const head = odd === 1 ? [digitByDigit(text.slice(0, 1))] : [];
  return [...head, ...pairs.map((pair) => cardinal(Number(pair)))].join(" ");
}

/** Decimal text as words: "3.8750" is "three point eight seven five oh". A leading zero is left out unless `lead`. */
export function decimalWords(text: string, zero = "oh", lead = ""): string {
  const [whole = "", tail = ""] = text.replace("-", "").split(".");
  const head = whole === "" || whole === "0" ? lead : cardinal(Number(whole));
  if (tail === "") return head === "" ? zero : head;
  return `${head === "" ? "" : `${head} `}point ${digitByDigit(tail, zero)}`;
}

const DENOMINATORS: Readonly<Record<number, readonly [string, string]>> = {
  2: ["half", "halves"],
  4: ["quarter", "quarters"],
  8: ["eighth", "eighths"],
  16: ["sixteenth", "sixteenths"],
  32: ["thirty second", "thirty seconds"],
  64: ["sixty fourth", "sixty fourths"],
};

/** A value in 64ths as words: 3/32 is "three thirty seconds", 1 3/4 "one and three quarters"; undefined when it is none. */
export function fractionWords(value: number): string | undefined {
  const in64 = value * 64;
  if (!Number.isInteger(in64) || value <= 0) return undefined;
  const whole = Math.trunc(value);
  let n = in64 - whole * 64;
  if (n === 0) return undefined;
  let d = 64;
  while (n % 2 === 0) {
    n /= 2;
    d /= 2;
  }
  const [one, many] = DENOMINATORS[d] ?? ["", ""];
  const part = n === 1 ? (d === 2 && whole === 0 ? "half" : `a ${one}`) : `${cardinal(n)} ${many}`;
  return whole === 0 ? part : `${cardinal(whole)} and ${d === 2 ? "a half" : part}`;
}
