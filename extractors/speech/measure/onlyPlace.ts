// Whether the only figure of a reading is the number of the place it speaks of: "rod three side" waits for its figure.
import { QUANTITIES } from "../../../shared/quantities/registry.ts";
import type { Spec } from "../../../shared/spec/spec.ts";
import type { Noun, Sense, Token } from "../types.ts";
import type { Draft } from "./draft.ts";
import type { Env } from "./env.ts";
import { takes } from "./inherit.ts";
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

const SLOTS = ["cylinder", "rod", "main"] as const;

/** How many places a quantity tells apart by a number that was not said; 0 where it has none, or one was. */
function unplaced({ quantity, place, implied }: Draft, spec: Spec): number {
  const slots = SLOTS.filter((slot) => takes(QUANTITIES[quantity], slot));
  const said = slots.some((slot) => place[slot] !== undefined && !implied.includes(slot));
  return said ? 0 : Math.max(0, ...slots.map((slot) => countOf(spec, slot, {}) ?? 0));
}

/** A whole number said without a unit, in one word; undefined where the figure is said otherwise. */
function bareNumber({ expr, value }: Draft): number | undefined {
  const [part] = expr.parts;
  const bare = value.implied && expr.parts.length === 1 && expr.to === expr.from + 1 && part?.figure.kind === "int";
  return bare ? Number(part.figure.text) : undefined;
}

/**
 * Whether a draft's figure may be the number of its place: a bare number, right behind the quantity's name, of a place that the
 * engine has, where no other number tells the place.
 */
export function mayBePlace(draft: Draft, tokens: readonly Token[], { spec, correcting }: Env): boolean {
  const n = bareNumber(draft);
  const { from } = draft.expr;
  if (n === undefined || n < 1 || correcting === true || draft.known !== "named" || tokens[from]?.pause === true) return false;
  return tokens[from - 1]?.sense.feat !== undefined && n <= unplaced(draft, spec);
}

/**
 * Whether the only figure of `drafts` is the number of a place, and the sentence broke off before its figure: a bare number of a
 * place that the engine has, right behind the word that it counts, or behind the quantity's name where a place follows it or
 * no such figure can be.
 */
export function isOnlyPlace(drafts: readonly Draft[], tokens: readonly Token[], env: Env): boolean {
  const [only, ...others] = drafts;
  if (only === undefined || others.length > 0 || env.correcting === true) return false;
  const n = bareNumber(only);
  const { from, to } = only.expr;
  const before = tokens[from - 1];
  if (n === undefined || n < 1 || before === undefined || tokens[from]?.pause === true) return false;
  if (n <= countedBy(before.sense, env.spec)) return true;
  const next = tokens[to];
  const placed = next?.pause === false && next.sense.slots !== undefined;
  return mayBePlace(only, tokens, env) && (placed || only.value.fit !== "in");
}
