// One clause -> draft readings, one a candidate quantity and scaling, best first. This is where candidates are weighed.

import type { Place, PlaceKey } from "../../../shared/places/places.ts";
import { QUANTITIES } from "../../../shared/quantities/registry.ts";
import type { Quantity, QuantityId } from "../../../shared/quantities/types.ts";
import { UNITS } from "../../../shared/units/units.ts";
import type { Sense, SignWord, Token } from "../types.ts";
import { IMPLIED_BY_DIMENSION, IMPLIED_BY_SLOT } from "../vocabulary/implied.ts";
import { PLACE_LIKE } from "../vocabulary/names.ts";
import type { Clause } from "./clauses.ts";
import type { Draft, Known, Scaled } from "./draft.ts";
import type { Env } from "./env.ts";
import { namedBy } from "./names.ts";
import { settle } from "./place.ts";
import { scale } from "./scale.ts";
import { signOf } from "./sign.ts";

/** Weights of the evidence. Only their order and rough size matter; the tests hold them. */
const WEIGHT = {
  name: 10,
  context: 8,
  contextTie: 3,
  sure: 8,
  guess: 3,
  step: 2,
  uncovered: -8,
  in: 6,
  near: -2,
  far: -14,
  missing: -5,
  absent: -7,
  stray: -12,
  spokenUnit: 1,
  spokenSlot: 2,
  impossibleSign: -9,
  over: 4,
  overless: -2,
  flag: -1,
  tail: -6,
} as const;

/** Quantities of which "line to line" or "flush" can be said. */
const EVEN_RULES = new Set<Quantity["sign"]>(["fit", "deck", "deviation"]);

/** The quantity of an earlier value in the same sentence. */
export interface Inherited {
  readonly id: QuantityId;
  readonly known: Known;
}

interface Candidate {
  readonly id: QuantityId;
  readonly known: Known;
  readonly score: number;
}

interface Said {
  readonly senses: readonly Sense[];
  readonly feats: ReadonlySet<string>;
  readonly signs: readonly SignWord[];
}

function saidIn(clause: Clause, tokens: readonly Token[]): Said {
  const senses: Sense[] = [];
  const feats = new Set<string>();
  const signs: SignWord[] = [];
  for (const i of clause.words) {
    const { sense } = tokens[i] as Token;
    senses.push(sense);
    if (sense.feat !== undefined) feats.add(sense.feat);
    if (sense.sign !== undefined) signs.push(sense.sign);
    const slot = sense.slots?.[0]?.[0];
    if (slot === "valve" || slot === "ring") feats.add(slot);
  }
  return { senses, feats, signs };
}

function candidates(clause: Clause, said: Said, env: Env, inherited: Inherited | undefined): Candidate[] {
  const out: Candidate[] = [];
  const named = namedBy(said.feats);
  const solid = [...said.feats].filter((feat) => !PLACE_LIKE.has(feat)).length;
  for (const [id, cover] of named) {
    const quantity = QUANTITIES[id];
    const score = WEIGHT.name * cover.words + WEIGHT.uncovered * (solid - cover.solid);
    const tie = (id === env.context.quantity ? WEIGHT.contextTie : 0) + (stepOf(quantity, env) ? WEIGHT.step : 0);
    out.push({ id, known: "named", score: score + tie });
  }
  const uncovered = WEIGHT.uncovered * solid;
  const add = (id: QuantityId, known: Known, score: number) => {
    if (!out.some((c) => c.id === id)) {
      const step = stepOf(QUANTITIES[id], env) ? WEIGHT.step * (known === "guess" ? 2 : 1) : 0;
      out.push({ id, known, score: score + uncovered + step });
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

/** Draft readings of one clause, best first; none when nothing it could be of is known. */
export function rank(
  clause: Clause,
  tokens: readonly Token[],
  env: Env,
  earlier: Place,
  inherited: Inherited | undefined,
): Draft[] {
  const said = saidIn(clause, tokens);
  const drafts: Draft[] = [];
  for (const candidate of candidates(clause, said, env, inherited)) {
    const quantity = QUANTITIES[candidate.id];
    const same = isSameFamily(candidate.id, env.context.quantity);
    const settled = settle(
      { numbers: clause.numbers, senses: said.senses, given: clause.given },
      quantity,
      earlier,
      env.place,
      same,
      env.spec,
    );
    // "five tenths clearance" of a fit is its sign.
    const cleared = quantity.sign === "fit" && said.feats.has("clearance");
    const sign = signOf(cleared ? [...said.signs, "loose"] : said.signs, quantity, clause.value.flags.includes("even"));
    const scaled = scale(clause.value, candidate.id, env.spec, env.shop, sign.sign);
    const fitSide = sign.sign < 0 ? "pin_fit_boss" : "pin_fit_bush";
    const over = clause.over === undefined ? undefined : overOf(clause, quantity);
    for (const value of scaled.slice(0, 2)) {
      const signed = value.dec.n === 0 ? sign.flags.filter((flag) => flag !== "sign_implied") : sign.flags;
      const flags = [...clause.value.flags, ...value.flags, ...signed];
      let score = candidate.score + WEIGHT[value.fit] + (value.implied ? 0 : WEIGHT.spokenUnit);
      score += settled.missing.length * WEIGHT.missing + settled.absent.length * WEIGHT.absent + settled.stray * WEIGHT.stray;
      score += spokenScore(settled.spoken, quantity) + value.flags.length * WEIGHT.flag;
      if (value.flags.includes("tail")) score += WEIGHT.tail;
      if (sign.impossible || (clause.value.flags.includes("even") && !EVEN_RULES.has(quantity.sign))) {
        score += WEIGHT.impossibleSign;
        flags.push("impossible_sign");
      }
      // A pin fit named without bush or boss: a tight one is the piston's, a loose one the bush's.
      if (candidate.id === fitSide && quantity.sign === "fit") score += WEIGHT.step;
      if (clause.over !== undefined) {
        score += over === undefined ? WEIGHT.stray : WEIGHT.over;
        if (over === undefined) flags.push("two_figures");
      } else if (quantity.over?.required) score += WEIGHT.overless;
      drafts.push(draft(clause, candidate, settled, value, flags, score, over, said));
    }
  }
  return drafts.sort((a, b) => b.score - a.score);
}

/** Slots that were said and are needed weigh more than those that merely may be given. */
function spokenScore(spoken: ReadonlySet<PlaceKey>, quantity: Quantity): number {
  let score = 0;
  for (const slot of spoken) {
    const needed = quantity.needs.includes(slot) || quantity.needsOneOf?.includes(slot) === true;
    const bolt = quantity.needs.includes("fastener");
    if (needed || bolt || !COUNTED.has(slot)) score += WEIGHT.spokenSlot;
  }
  return score;
}
const COUNTED = new Set<PlaceKey>(["cylinder", "main", "rod"]);

function draft(
  clause: Clause,
  candidate: Candidate,
  settled: ReturnType<typeof settle>,
  value: Scaled,
  flags: readonly string[],
  score: number,
  over: Scaled | undefined,
  said: Said,
): Draft {
  const implied: string[] = [];
  if (candidate.known !== "named") implied.push("quantity");
  for (const slot of settled.implied) implied.push(slot);
  if (value.implied) implied.push("unit");
  return {
    quantity: candidate.id,
    known: candidate.known,
    place: settled.place,
    implied,
    value,
    expr: clause.value,
    missing: settled.missing as PlaceKey[],
    absent: settled.absent as PlaceKey[],
    flags,
    score,
    from: clause.from,
    to: clause.to,
    over,
    condition: said.senses.find((sense) => sense.condition !== undefined)?.condition,
  };
}

/** What is said of one nut keeps the nut, whichever of its figures it is. */
const NUT_FIGURES: readonly QuantityId[] = ["fastener_torque", "castle_nut_angle"];

function isSameFamily(id: QuantityId, other: QuantityId | undefined): boolean {
  return id === other || (other !== undefined && NUT_FIGURES.includes(id) && NUT_FIGURES.includes(other));
}

/** The second figure, in inches: a spring's length, a mandrel's length. */
function overOf(clause: Clause, quantity: Quantity): Scaled | undefined {
  const figure = clause.over?.parts[0];
  if (quantity.over === undefined || figure === undefined) return undefined;
  if (figure.unit !== undefined && figure.unit !== "in" && figure.unit !== "mm") return undefined;
  const dec = figure.figure.kind === "digits" ? { n: figure.figure.dec.n, s: figure.figure.text.length - 1 } : figure.figure.dec;
  return { dec, unit: figure.unit === "mm" ? "mm" : "in", implied: figure.unit === undefined, fit: "in", flags: [] };
}
