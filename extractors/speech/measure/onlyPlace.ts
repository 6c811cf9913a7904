// Whether the only figure of a reading is the number of the place it speaks of: "rod three side" waits for its figure.
import type { Spec } from "../../../shared/spec/spec.ts";
import type { Noun, Sense, Token } from "../types.ts";
import type { Draft } from "./draft.ts";
import type { Env } from "./env.ts";
import { countOf } from "./place.ts";

/** Nouns whose number tells one cylinder's from another's; a nut's and a stage's number may as well be its figure. */
const OF_CYLINDER: ReadonlySet<Noun> = new Set(["cylinder", "number", "rod", "crankpin", "pin", "piston"]);

/** How many there are of what a number behind this word counts; 0 where it counts nothing. */
function countedBy({ noun, slots = [] }: Sense, spec: Spec): number {
  const cylinders = countOf(spec, "cylinder", {}) ?? 0;
  const mains = countOf(spec, "main", {}) ?? 0;
  if (noun === "main") return mains;
  if (noun === "journal") return Math.max(mains, cylinders);
  const counts = (noun !== undefined && OF_CYLINDER.has(noun)) || slots.some(([slot]) => slot === "valve");
  return counts ? cylinders : 0;
}

/**
 * Whether the only figure of `drafts`, said without a unit, is one digit right behind the word that it counts, and this engine has
 * that place. Such a sentence broke off before its figure.
 */
export function isOnlyPlace([only, ...others]: readonly Draft[], tokens: readonly Token[], { spec, correcting }: Env): boolean {
  if (only === undefined || others.length > 0 || correcting === true) return false;
  const { expr, value } = only;
  const [part] = expr.parts;
  if (!value.implied || expr.parts.length > 1 || expr.to !== expr.from + 1 || part?.figure.kind !== "int") return false;
  const before = tokens[expr.from - 1];
  if (before === undefined || tokens[expr.from]?.pause === true) return false;
  const n = Number(part.figure.text);
  return n >= 1 && n <= countedBy(before.sense, spec);
}
