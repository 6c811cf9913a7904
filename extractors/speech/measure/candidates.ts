// Quantities a clause may be of: named, known from context, or implied by a place, a unit or a sign.
import { QUANTITIES } from "../../../shared/quantities/registry.ts";
import type { Quantity, QuantityId } from "../../../shared/quantities/types.ts";
import { UNITS } from "../../../shared/units/units.ts";
import { IMPLIED_BY_DIMENSION, IMPLIED_BY_SLOT } from "../vocabulary/implied.ts";
import { PLACE_LIKE } from "../vocabulary/names.ts";
import type { Clause } from "./clauses.ts";
import type { Known } from "./draft.ts";
import type { Env } from "./env.ts";
import { namedBy } from "./names.ts";
import type { Said } from "./said.ts";
import { isSignOf } from "./sign.ts";
import { WEIGHT } from "./weights.ts";

/** The quantity of an earlier value in the same sentence. */
export interface Inherited {
  readonly id: QuantityId;
  readonly known: Known;
}

/** A quantity with what speaks for it. */
export interface Candidate {
  readonly id: QuantityId;
  readonly known: Known;
  readonly score: number;
  /** A quantity was named, and it is not this one. */
  readonly unnamed?: boolean;
}

/** Every quantity worth weighing for a clause. */
export function candidates(clause: Clause, said: Said, env: Env, inherited: Inherited | undefined): Candidate[] {
  const out: Candidate[] = [];
  const named = namedBy(said.feats);
  const solid = [...said.feats].filter((feat) => !PLACE_LIKE.has(feat)).length;
  for (const [id, cover] of named) {
    const quantity = QUANTITIES[id];
    const score = WEIGHT.name * cover.words + WEIGHT.uncovered * (solid - cover.solid);
    const tie = (id === env.context.quantity ? WEIGHT.contextTie : 0) + (stepOf(quantity, env) ? WEIGHT.step : 0);
    out.push({ id, known: "named", score: score + tie });
  }
  const add = (id: QuantityId, known: Known, score: number) => {
    if (!out.some((c) => c.id === id)) {
      const names = solid - signNames(said, QUANTITIES[id]);
      const uncovered = WEIGHT.uncovered * names;
      const step = stepOf(QUANTITIES[id], env) ? WEIGHT.step * (known === "guess" ? 2 : 1) : 0;
      out.push({ id, known, score: score + uncovered + step, unnamed: names > 0 && named.size > 0 });
    }
  };
  if (inherited !== undefined) add(inherited.id, inherited.known, WEIGHT.context + 2);
  if (env.context.quantity !== undefined) add(env.context.quantity, "context", WEIGHT.context);
  const unit = clause.value.parts[0]?.unit;
  if (unit !== undefined) impliedByUnit(unit, add);
  impliedBySlots(clause, said, add);
  impliedBySign(clause, said, add);
  return out;
}

/** How many of the name words said are this quantity's sign: "a thou short" of a length, "five tenths clearance" of a fit. */
function signNames(said: Said, quantity: Quantity): number {
  let n = 0;
  for (const feat of said.feats) {
    if (PLACE_LIKE.has(feat)) continue;
    const sign = feat === "clearance" ? "loose" : said.signFeats.get(feat);
    if (sign !== undefined && isSignOf(sign, quantity)) n++;
  }
  return n;
}

const stepOf = (quantity: Quantity, env: Env): boolean =>
  env.context.step !== undefined && quantity.steps.includes(env.context.step);

function impliedBySlots(clause: Clause, said: Said, add: (id: QuantityId, known: Known, score: number) => void): void {
  const slots = new Set<string>();
  for (const sense of said.senses) {
    for (const [slot] of sense.slots ?? []) slots.add(slot);
    if (sense.part !== undefined) slots.add("part");
    if (sense.noun === "nut") slots.add("nut");
  }
  // "top" is a ring's place or a depth; a bare "top" says neither for sure.
  if (slots.has("ring") && slots.has("depth")) {
    if (said.feats.has("ring") || !slots.has("axis")) slots.delete("depth");
    else slots.delete("ring");
  }
  for (const number of clause.numbers) {
    if (number.noun === "main" || number.noun === "rod") slots.add(number.noun);
    else if (number.noun === "crankpin") slots.add("rod");
    else slots.add("cylinder");
  }
  for (const slot of slots) {
    const implied = IMPLIED_BY_SLOT[slot];
    implied?.ids.forEach((id, k) => {
      add(id, implied.sure ? "implied" : "guess", implied.sure ? WEIGHT.sure - k : WEIGHT.guess - k * 0.5);
    });
  }
}

/** "flush" is said of a piston in its deck, "two thou long" of a rod. */
function impliedBySign(clause: Clause, said: Said, add: (id: QuantityId, known: Known, score: number) => void): void {
  if (clause.value.flags.includes("flush")) add("deck_protrusion", "implied", WEIGHT.sure);
  if (said.signs.includes("long") && clause.numbers.some((number) => number.noun === "rod")) {
    add("rod_length_dev", "guess", WEIGHT.guess + 2);
  }
}

function impliedByUnit(unit: string, add: (id: QuantityId, known: Known, score: number) => void): void {
  const dimension =
    unit === "degree" ? "temperature" : unit in UNITS ? UNITS[unit as keyof typeof UNITS].dimension : UNIT_DIMENSION[unit];
  if (dimension === undefined) return;
  IMPLIED_BY_DIMENSION[dimension]?.forEach((id, k) => {
    add(id, k === 0 ? "implied" : "guess", WEIGHT.guess + 1 - k);
  });
  if (unit === "degree")
    IMPLIED_BY_DIMENSION.angle?.forEach((id) => {
      add(id, "guess", WEIGHT.guess);
    });
}
const UNIT_DIMENSION: Readonly<Record<string, keyof typeof IMPLIED_BY_DIMENSION>> = {
  kg: "mass",
  bar: "pressure",
  flat: "angle",
};
