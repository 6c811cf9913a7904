// The sign words of a clause, read by the quantity's own rule: which sign, and what is odd about it.
import type { Quantity } from "../../../shared/quantities/types.ts";
import type { SignWord } from "../types.ts";

export interface SignRead {
  readonly sign: 1 | -1;
  readonly flags: readonly string[];
  /** The word cannot be said of this quantity. */
  readonly impossible: boolean;
}

const POSITIVE: Readonly<Record<Quantity["sign"], readonly SignWord[]>> = {
  never: ["plus"],
  fit: ["plus", "over", "loose"],
  deck: ["plus", "over", "high", "long"],
  oversize: ["plus", "over"],
  undersize: [],
  deviation: ["plus", "over", "long", "high"],
};
const NEGATIVE: Readonly<Record<Quantity["sign"], readonly SignWord[]>> = {
  never: [],
  fit: ["minus", "under", "tight"],
  deck: ["minus", "under", "low", "short"],
  oversize: [],
  undersize: ["minus", "under"],
  deviation: ["minus", "under", "short", "low"],
};
/** Words that may be said of an unsigned quantity without changing it ("down" beside a bore's depth). */
const IDLE: readonly SignWord[] = ["plus", "high", "low", "long", "short", "loose", "even"];

/** Whether a word gives this quantity its sign. */
export function isSignOf(word: SignWord, { sign }: Quantity): boolean {
  return sign !== "never" && (POSITIVE[sign].includes(word) || NEGATIVE[sign].includes(word));
}

/** Read the sign words said with a value. */
export function signOf(words: readonly SignWord[], quantity: Quantity, even: boolean): SignRead {
  const rule = quantity.sign;
  const said = words.filter((word) => word !== "even");
  const positive = said.some((word) => POSITIVE[rule].includes(word));
  const negative = said.some((word) => NEGATIVE[rule].includes(word));
  const idle = rule === "never" || rule === "oversize" || rule === "undersize" ? IDLE : [];
  const other = said.some((word) => !POSITIVE[rule].includes(word) && !NEGATIVE[rule].includes(word) && !idle.includes(word));
  if (positive && negative) return { sign: 1, flags: ["two_signs"], impossible: false };
  const flags: string[] = [];
  if (rule === "fit" && !positive && !negative && !even) flags.push("sign_implied");
  if ((rule === "oversize" || rule === "undersize") && !positive && !negative) flags.push("sign_implied");
  if (rule === "deviation" && !positive && !negative && !even) flags.push("sign_implied");
  if (rule === "fit" && said.includes("over")) flags.push("over_doubt");
  const sign = negative || rule === "undersize" ? -1 : 1;
  return { sign, flags, impossible: other };
}
