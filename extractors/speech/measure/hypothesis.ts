// A sentence's best measurement readings: every sharing-out of its numbers is resolved, weighed and compared.
import { type Place, placeKey } from "../../../shared/places/places.ts";
import type { Token } from "../types.ts";
import type { Inherited } from "./candidates.ts";
import { type Clause, clausesOf, type Style } from "./clauses.ts";
import { selfCorrected } from "./corrected.ts";
import type { Draft } from "./draft.ts";
import type { Element } from "./elements.ts";
import type { Env } from "./env.ts";
import { along, listSlot, openSlot } from "./list.ts";
import { rank, type Under } from "./rank.ts";
import { sentences } from "./sentences.ts";

export interface Hypothesis {
  readonly drafts: readonly Draft[];
  readonly score: number;
  readonly elements: readonly Element[];
}

const EXTRA_VALUE = 2;
/** Several values of which one is a guess are more often one value and a place. */
const GUESS_AMONG = 8;
/** Two figures for one place: a question, and only when nothing better is read. */
const SEVERAL = -25;
const TWICE = -10;
const STYLES: readonly Style[] = ["pause", "next", "before"];
const ONE_STYLE: readonly Style[] = ["pause"];

/** Hypotheses for tokens[from, to), best first. */
export function hypotheses(tokens: readonly Token[], from: number, to: number, env: Env): Hypothesis[] {
  const out: Hypothesis[] = [];
  const under: Under = { tokens, env, ranked: new Map() };
  for (const reading of sentences(tokens, from, to)) {
    const elements = selfCorrected(reading.elements, tokens);
    const values = elements.reduce((n, element) => n + (element.t === "value" ? 1 : 0), 0);
    if (values === 0) continue;
    let before: readonly Clause[] = [];
    for (const style of values > 1 ? STYLES : ONE_STYLE) {
      const clauses = clausesOf(elements, tokens, style);
      // Where no words stand between the values the styles share them out alike.
      if (sameCut(clauses, before)) continue;
      before = clauses;
      const resolved = resolve(clauses, under);
      if (resolved === undefined || resolved.length === 0) continue;
      const drafts = oneEach(resolved);
      const mean = drafts.reduce((sum, draft) => sum + draft.score, 0) / drafts.length;
      const guesses =
        drafts.length > 1 && drafts.some((draft) => draft.known === "guess" && draft.place.fastener === undefined)
          ? GUESS_AMONG
          : 0;
      out.push({ drafts, score: mean - guesses - (drafts.length - 1) * EXTRA_VALUE - reading.cost, elements });
    }
  }
  return out.sort((a, b) => b.score - a.score);
}

/** Two figures for one place and quantity cannot both stand: such a sharing-out is asked about, if nothing better is found. */
function oneEach(drafts: Draft[]): Draft[] {
  const places = new Set(drafts.map((draft) => `${draft.quantity} ${placeKey(draft.place)}`));
  if (places.size === drafts.length) return drafts;
  return drafts.map((draft) => ({ ...draft, flags: [...draft.flags, "several"], score: draft.score + TWICE }));
}

function sameCut(a: readonly Clause[], b: readonly Clause[]): boolean {
  return (
    a.length === b.length &&
    a.every((clause, k) => clause.from === b[k]?.from && clause.to === b[k]?.to && clause.words.length === b[k]?.words.length)
  );
}

function resolve(clauses: readonly Clause[], under: Under): Draft[] | undefined {
  const drafts: Draft[] = [];
  let earlier: Place = {};
  let quantity: Inherited | undefined;
  for (let i = 0; i < clauses.length; ) {
    const clause = clauses[i] as Clause;
    let n = 1;
    while (clauses[i + n]?.bare === true && clauses[i + n]?.over === undefined) n++;
    const ranked = rank(clause, under, earlier, quantity);
    const first = ranked[0];
    if (first === undefined) {
      // Nothing says what it is yet; a later clause may.
      const later = i + 1 < clauses.length ? lookAhead(clauses.slice(i), under) : undefined;
      if (later === undefined) return undefined;
      drafts.push(...later);
      break;
    }
    if (n > 1) {
      const list = listDrafts(clauses.slice(i, i + n), ranked, under, earlier);
      if (list !== undefined) drafts.push(...list);
      else drafts.push({ ...first, flags: [...first.flags, "several"], score: first.score + SEVERAL });
    } else drafts.push(first);
    const last = drafts[drafts.length - 1] as Draft;
    earlier = spokenPlace(earlier, last);
    quantity = inheritedFrom(last);
    i += n;
  }
  return fillBack(drafts, clauses, under);
}

const inheritedFrom = (draft: Draft): Inherited => ({ id: draft.quantity, known: draft.known });

/** Slots said so far in the sentence. */
function spokenPlace(earlier: Place, draft: Draft): Place {
  const place: Place = { ...earlier };
  for (const [slot, value] of Object.entries(draft.place)) {
    if (!draft.implied.includes(slot) || (earlier as Record<string, unknown>)[slot] !== undefined) {
      (place as Record<string, unknown>)[slot] = value;
    }
  }
  return place;
}

/** Quantity said only with the last of several values. */
function lookAhead(clauses: readonly Clause[], under: Under): Draft[] | undefined {
  const named = clauses.map((clause) => rank(clause, under, {}, undefined)[0]).find((draft) => draft !== undefined);
  if (named === undefined) return undefined;
  const out: Draft[] = [];
  for (const clause of clauses) {
    const draft = rank(clause, under, spokenPlace({}, named), inheritedFrom(named))[0];
    if (draft === undefined) return undefined;
    out.push(draft);
  }
  return out;
}

/** "ten thou intake, twelve thou exhaust on two": what a later value's words say holds for an earlier one that lacks it. */
function fillBack(drafts: Draft[], clauses: readonly Clause[], under: Under): Draft[] {
  if (drafts.length !== clauses.length || drafts.length < 2) return drafts;
  for (let i = drafts.length - 2; i >= 0; i--) {
    const draft = drafts[i] as Draft;
    const next = drafts[i + 1] as Draft;
    if (draft.missing.length === 0 && draft.known !== "guess") continue;
    // Guessed rightly: the name came with the later value.
    if (draft.missing.length === 0 && draft.quantity === next.quantity) {
      drafts[i] = { ...draft, known: next.known };
      continue;
    }
    const again = rank(clauses[i] as Clause, under, spokenPlace({}, next), inheritedFrom(next))[0];
    if (again !== undefined && again.score > draft.score) drafts[i] = again;
  }
  return drafts;
}

function listDrafts(clauses: readonly Clause[], ranked: readonly Draft[], under: Under, earlier: Place): Draft[] | undefined {
  const { tokens, env } = under;
  let best: Draft[] | undefined;
  let bestScore = Number.NEGATIVE_INFINITY;
  for (const first of ranked.slice(0, 3)) {
    // A list of what was never named is a guess upon a guess.
    if (first.known === "guess" && first.place.fastener === undefined) continue;
    const exact = listSlot(first, clauses.length, env.spec);
    const slot = exact ?? openSlot(first, clauses.length, env.spec);
    if (slot === undefined) continue;
    const places = along(slot, env.spec, first.place);
    const out: Draft[] = [];
    for (let k = 0; k < clauses.length; k++) {
      const { words, numbers } = clauses[0] as Clause;
      // Only the first value was named; the rest take its name as heard once.
      const heard = k === 0 ? words : words.filter((at) => isPlaceWord(tokens[at]));
      const clause: Clause = { ...(clauses[k] as Clause), words: heard, numbers, given: { [slot]: places[k] } as Place };
      const inner = rank(clause, under, earlier, inheritedFrom(first), first.quantity)[0];
      if (inner === undefined) break;
      const own = clauses[k] as Clause;
      const flags = [...inner.flags, exact === undefined ? "list_short" : "list"];
      out.push({ ...inner, flags, from: k === 0 ? inner.from : own.value.from, to: own.value.to });
    }
    if (out.length !== clauses.length) continue;
    const score = out.reduce((sum, draft) => sum + draft.score, 0) - (exact === undefined ? 4 * out.length : 0);
    if (score > bestScore) {
      best = out;
      bestScore = score;
    }
  }
  return best;
}

/** A word that places a value, or names nothing. */
function isPlaceWord(token: Token | undefined): boolean {
  return token?.sense.feat === undefined || token.sense.slots !== undefined || token.sense.noun !== undefined;
}
