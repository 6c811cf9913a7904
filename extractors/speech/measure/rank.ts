// One clause -> draft readings, one a candidate quantity and scaling, best first. This is where candidates are weighed.
import { MOVING_KEYS, type Place, type PlaceKey, placeKey } from "../../../shared/places/places.ts";
import { QUANTITIES } from "../../../shared/quantities/registry.ts";
import type { Quantity, QuantityId } from "../../../shared/quantities/types.ts";
import type { Token, ValueExpr } from "../types.ts";
import { type Candidate, candidates, type Inherited } from "./candidates.ts";
import type { Clause } from "./clauses.ts";
import type { Draft, Scaled } from "./draft.ts";
import type { Env } from "./env.ts";
import { type Settled, settle } from "./place.ts";
import { type Said, saidIn } from "./said.ts";
import { scale } from "./scale.ts";
import { type SignRead, signOf } from "./sign.ts";
import { WEIGHT } from "./weights.ts";

/** Quantities of which "line to line" or "flush" can be said. */
const SIZE_RULES = new Set<Quantity["sign"]>(["oversize", "undersize"]);
const EVEN_RULES = new Set<Quantity["sign"]>(["fit", "deck", "deviation"]);

/** Readings of clauses already ranked in this sentence: many sharings-out of its numbers have clauses in common. */
export type Ranked = Map<ValueExpr, Map<string, readonly Draft[]>>;

/** What a clause is ranked under, besides its own words. */
export interface Under {
  readonly tokens: readonly Token[];
  readonly env: Env;
  readonly ranked: Ranked;
}

/**
 * Draft readings of one clause, best first; none when nothing it could be of is known.
 * @param earlier slots said earlier in the sentence
 * @param only weigh this quantity alone
 */
export function rank(
  clause: Clause,
  under: Under,
  earlier: Place,
  inherited: Inherited | undefined,
  only?: QuantityId,
): readonly Draft[] {
  const key = keyOf(clause, earlier, inherited, only);
  let known = under.ranked.get(clause.value);
  if (known === undefined) {
    known = new Map();
    under.ranked.set(clause.value, known);
  }
  let drafts = known.get(key);
  if (drafts === undefined) {
    drafts = draftsOf(clause, under, earlier, inherited, only);
    known.set(key, drafts);
  }
  return drafts;
}

function keyOf(clause: Clause, earlier: Place, inherited: Inherited | undefined, only: QuantityId | undefined): string {
  let numbers = "";
  for (const number of clause.numbers) numbers += `${number.at},`;
  const given = clause.given === undefined ? "" : placeKey(clause.given);
  const over = clause.over === undefined ? "" : clause.over.from;
  return `${clause.words.join()}|${numbers}|${over}|${given}|${placeKey(earlier)}|${inherited?.id ?? ""}${inherited?.known ?? ""}|${only ?? ""}`;
}

function draftsOf(
  clause: Clause,
  { tokens, env }: Under,
  earlier: Place,
  inherited: Inherited | undefined,
  only: QuantityId | undefined,
): Draft[] {
  const said = saidIn(clause, tokens);
  const found = candidates(clause, said, env, inherited).sort((a, b) => b.score - a.score);
  const drafts: Draft[] = [];
  const reach = WEIGHT.in + WEIGHT.over + WEIGHT.step + WEIGHT.spokenSlot * (clause.numbers.length * 2 + said.senses.length);
  let best = Number.NEGATIVE_INFINITY;
  for (const candidate of found) {
    if (only !== undefined && candidate.id !== only) continue;
    // Sorted: once the best cannot be reached, neither can it by any after.
    if (candidate.score + reach < best) break;
    const before = drafts.length;
    weighCandidate(clause, candidate, said, env, earlier, drafts);
    for (let k = before; k < drafts.length; k++) best = Math.max(best, (drafts[k] as Draft).score);
  }
  const first = found[0];
  if (drafts.length === 0 && first !== undefined && first.known !== "guess" && only === undefined) {
    drafts.push(outOfUnit(clause, first, said, env, earlier));
  }
  return drafts.sort((a, b) => b.score - a.score);
}

/** The value's unit cannot be this quantity's: kept as a draft that will be asked about. */
function outOfUnit(clause: Clause, candidate: Candidate, said: Said, env: Env, earlier: Place): Draft {
  const quantity = QUANTITIES[candidate.id];
  const words = { numbers: clause.numbers, senses: said.senses, given: clause.given };
  const settled = settle(words, quantity, earlier, env.place, false, env.spec);
  const dec = clause.value.parts[0]?.figure.dec ?? { n: 0, s: 0 };
  const value: Scaled = { dec, unit: quantity.unit, implied: false, fit: "far", flags: ["impossible_unit"] };
  return draft(clause, candidate, settled, value, value.flags, candidate.score + WEIGHT.far, undefined, said);
}

function weighCandidate(clause: Clause, candidate: Candidate, said: Said, env: Env, earlier: Place, drafts: Draft[]): void {
  const quantity = QUANTITIES[candidate.id];
  // "five tenths clearance" of a fit is its sign.
  const cleared = quantity.sign === "fit" && said.feats.has("clearance");
  const sign = signOf(cleared ? [...said.signs, "loose"] : said.signs, quantity, clause.value.flags.includes("even"));
  const scaled = scale(clause.value, candidate.id, env.spec, env.shop, sign.sign);
  if (scaled.length === 0) return;
  const words = { numbers: clause.numbers, senses: said.senses, given: clause.given };
  const same = isSameFamily(candidate.id, env.context.quantity);
  const settled = settle(words, quantity, earlier, env.place, same, env.spec);
  const over = clause.over === undefined ? undefined : overOf(clause, quantity);
  for (let k = 0; k < scaled.length && k < 2; k++) {
    const value = scaled[k] as Scaled;
    const signed = value.dec.n === 0 ? sign.flags.filter((flag) => flag !== "sign_implied") : sign.flags;
    const weighed = weigh(clause, candidate, quantity, settled, value, sign, over);
    const flags = [...clause.value.flags, ...value.flags, ...signed, ...weighed.flags];
    drafts.push(draft(clause, candidate, settled, value, flags, weighed.score, over, said));
  }
}

/** What speaks for one reading and against it. */
function weigh(
  clause: Clause,
  candidate: Candidate,
  quantity: Quantity,
  settled: Settled,
  value: Scaled,
  sign: SignRead,
  over: Scaled | undefined,
): { score: number; flags: readonly string[] } {
  const flags: string[] = [];
  let score = candidate.score + WEIGHT[value.fit] + (value.implied ? 0 : WEIGHT.spokenUnit);
  score +=
    settled.missing.length * WEIGHT.missing +
    settled.absent.length * WEIGHT.absent +
    (settled.stray + settled.lost) * WEIGHT.stray;
  score += spokenScore(settled.spoken, quantity) + value.flags.length * WEIGHT.flag;
  if (candidate.unnamed) flags.push("name_ignored");
  if (sign.flags.includes("sign_implied") && SIZE_RULES.has(quantity.sign)) score += WEIGHT.sizeless;
  if (settled.lost > 0) flags.push("lost_number");
  if (settled.stray > 0) flags.push("stray_place");
  if (value.flags.includes("tail")) score += WEIGHT.tail;
  const lone = clause.bare && value.implied && clause.value.parts[0]?.figure.kind === "int";
  if (lone && candidate.known === "context") score += WEIGHT.lone;
  if (sign.impossible || (clause.value.flags.includes("even") && !EVEN_RULES.has(quantity.sign))) {
    score += WEIGHT.impossibleSign;
    flags.push("impossible_sign");
  }
  // A pin fit named without bush or boss: a tight one is the piston's, a loose one the bush's.
  const fitSide = sign.sign < 0 ? "pin_fit_boss" : "pin_fit_bush";
  if (candidate.id === fitSide) score += WEIGHT.step;
  if (clause.over === undefined) return { score: score + (quantity.over?.required ? WEIGHT.overless : 0), flags };
  if (over === undefined) flags.push("two_figures");
  return { score: score + (over === undefined ? WEIGHT.stray : WEIGHT.over), flags };
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
const COUNTED = new Set(MOVING_KEYS);

function draft(
  clause: Clause,
  candidate: Candidate,
  settled: Settled,
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

/** The second figure: a spring's or a mandrel's length, a speed, a time. */
function overOf(clause: Clause, quantity: Quantity): Scaled | undefined {
  const figure = clause.over?.parts[0];
  if (quantity.over === undefined || figure === undefined) return undefined;
  const own = quantity.over.unit;
  if (own !== "in")
    return figure.unit === undefined || figure.unit === own
      ? { dec: figure.figure.dec, unit: own, implied: figure.unit === undefined, fit: "in", flags: [] }
      : undefined;
  if (figure.unit !== undefined && figure.unit !== "in" && figure.unit !== "mm") return undefined;
  const dec = figure.figure.kind === "digits" ? { n: figure.figure.dec.n, s: figure.figure.text.length - 1 } : figure.figure.dec;
  return { dec, unit: figure.unit === "mm" ? "mm" : "in", implied: figure.unit === undefined, fit: "in", flags: [] };
}
