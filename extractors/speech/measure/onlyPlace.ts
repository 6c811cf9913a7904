// Whether the only figure of a reading is the number of the place it speaks of: "rod three side" waits for its figure.
import { QUANTITIES } from "../../../shared/quantities/registry.ts";
import type { QuantityId } from "../../../shared/quantities/types.ts";
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

/** A whole number said without a unit, in one word, and the word right before it; undefined where the figure is said otherwise. */
function bareNumber({ expr, value }: Draft, tokens: readonly Token[], { correcting }: Env) {
  const { parts, from, to } = expr;
  const [part] = parts;
  const before = tokens[from - 1]?.sense;
  if (!value.implied || parts.length > 1 || to !== from + 1 || part?.figure.kind !== "int") return undefined;
  if (before === undefined || correcting === true || tokens[from]?.pause === true) return undefined;
  const n = Number(part.figure.text);
  return n < 1 ? undefined : { n, before };
}

/**
 * Whether a draft's figure may be the number of its place: a bare number, right behind the quantity's name, of a place that the
 * engine has, where no other number tells the place.
 */
export function mayBePlace(draft: Draft, tokens: readonly Token[], env: Env): boolean {
  const bare = bareNumber(draft, tokens, env);
  return draft.known === "named" && bare?.before.feat !== undefined && bare.n <= unplaced(draft, env.spec);
}

/**
 * The quantity of a sentence that broke off before its figure; undefined where it did not. It did where the only figure of `drafts` is
 * the number of a place: a bare number of a place that the engine has, right behind the word that it counts, or behind the
 * quantity's name where a place follows it or no such figure can be.
 */
export function brokenOff(drafts: readonly Draft[], tokens: readonly Token[], env: Env): QuantityId | undefined {
  const [only, ...others] = drafts;
  const bare = only && others.length === 0 ? bareNumber(only, tokens, env) : undefined;
  if (only === undefined || bare === undefined) return undefined;
  const next = tokens[only.expr.to];
  const placed = next?.pause === false && next.sense.slots !== undefined;
  const counted = bare.n <= countedBy(bare.before, env.spec);
  return counted || ((placed || only.value.fit !== "in") && mayBePlace(only, tokens, env)) ? only.quantity : undefined;
}
