// A heard sentence in, the small grammar of what else it may have been out: the grammar's own sentences a slip or two away.
import { GRAMMAR_WEIGHT } from "../engine/decoder.ts";
import { likeness } from "../words/alike.ts";
import { saidAs } from "../words/dictionary.ts";
import { isNumberWord } from "../words/numbers.ts";
import { plainWord } from "../words/plain-word.ts";
import type { State } from "./automaton.ts";

/** Words that may be taken for others, left out or put in, of one sentence. */
const MOST_SLIPS = 2;
/** A word of more phones is not heard out of nothing. */
const LONGEST_INSERTED = 3;
/** Share of phones that two words must have in common to be taken for each other. */
const ALIKE = 0.34;

/** What a word is by itself or beside another, worked out once: a grammar asks it of the same few hundred words in every sentence. */
function onceA<K, T>(work: (key: K) => T): (key: K) => T {
  const known = new Map<K, T>();
  return (key) => {
    let value = known.get(key);
    if (value === undefined) {
      value = work(key);
      known.set(key, value);
    }
    return value;
  };
}

/** Whether one word (without role) may be heard for the other: numbers always, others when they share enough of their phones. */
const alikeTo = onceA((one: string) => {
  const isNumber = isNumberWord(one);
  return onceA((other: string) => (isNumber && isNumberWord(other)) || likeness(one, other) >= ALIKE);
});

const isShort = onceA((word: string) => saidAs(word).some((way) => way.length <= LONGEST_INSERTED));

const weightText = onceA((weight: number) => weight.toPrecision(4));

interface Node {
  readonly state: State;
  /** Words of the heard sentence that are accounted for. */
  readonly at: number;
  readonly slips: number;
  /** The unwanted sentences that it may still become. */
  readonly unwanted: Unwanted | undefined;
  readonly arcs: { readonly word: string | undefined; readonly weight: number; readonly to: Node }[];
}

/** Words that a sentence mostly comes to the same with and without. */
const HOLLOW: ReadonlySet<string> = new Set([
  "a",
  "and",
  "at",
  "is",
  "number",
  "on",
  "the",
  "thou",
  "thousandth",
  "thousandths",
  "was",
]);

const isHollow = (word: string) => HOLLOW.has(plainWord(word));

/** A sentence (words with roles) without its hollow words: equal for what is unwanted together. */
export const solidOf = (sentence: readonly string[]): string => sentence.filter((word) => !isHollow(word)).join(" ");

/** Beginnings of unwanted sentences, hollow words left out. */
interface Unwanted {
  readonly id: number;
  readonly next: Map<string, Unwanted>;
  whole: boolean;
}

/** The empty beginning, undefined where nothing is unwanted, and how many there are. */
function beginningsOf(sentences: readonly (readonly string[])[]): {
  readonly first: Unwanted | undefined;
  readonly count: number;
} {
  if (sentences.length === 0) return { first: undefined, count: 0 };
  let count = 0;
  const empty = (): Unwanted => ({ id: count++, next: new Map(), whole: false });
  const first = empty();
  for (const sentence of sentences) {
    let at = first;
    for (const word of sentence.filter((said) => !isHollow(said))) {
      const next = at.next.get(word) ?? empty();
      at.next.set(word, next);
      at = next;
    }
    at.whole = true;
  }
  return { first, count };
}

/**
 * Sphinx FSG text of the sentences that `start` accepts and that differ from `heard` (words with roles) by at most two words; those
 * in `unwanted`, and what differs from them in hollow words only, cost `dearer` more than they do (natural-log units), and are left
 * out where that is infinite. Undefined when `heard` holds words the grammar does not have there, such as free speech, or when
 * nothing sounds like it.
 */
export function rivalsFsg(
  start: State,
  heard: readonly string[],
  unwanted: readonly (readonly string[])[] = [],
  dearer = Number.POSITIVE_INFINITY,
): string | undefined {
  const { first, count } = beginningsOf(unwanted);
  const nodes = new Map<number, Node>();
  const order: Node[] = [];
  const nodeOf = (state: State, at: number, slips: number, begun: Unwanted | undefined): Node => {
    const key = ((state.id * (heard.length + 1) + at) * (MOST_SLIPS + 1) + slips) * (count + 1) + (begun?.id ?? count);
    let node = nodes.get(key);
    if (node === undefined) {
      node = { state, at, slips, unwanted: begun, arcs: [] };
      nodes.set(key, node);
      order.push(node);
    }
    return node;
  };
  const said = heard.map((word) => plainWord(word));
  const alike = said.map((word) => alikeTo(word));
  const begin = nodeOf(start, 0, 0, first);
  for (const node of order) {
    const { state, at, slips, unwanted: here, arcs } = node;
    const next = said[at];
    const isAlike = alike[at];
    for (const { word, to, weight } of state.arcs) {
      if (word.startsWith("+")) continue;
      const begun = here === undefined || isHollow(word) ? here : here.next.get(word);
      // The same word in another role is no slip: "crankpin" may name the reading or the place of one.
      if (plainWord(word) === next) arcs.push({ word, weight, to: nodeOf(to, at + 1, slips, begun) });
      else if (slips < MOST_SLIPS) {
        if (isAlike?.(word) === true) arcs.push({ word, weight, to: nodeOf(to, at + 1, slips + 1, begun) });
        if (isShort(word)) arcs.push({ word, weight, to: nodeOf(to, at, slips + 1, begun) });
      }
    }
    if (next !== undefined && slips < MOST_SLIPS)
      arcs.push({ word: undefined, weight: 1, to: nodeOf(state, at + 1, slips + 1, here) });
  }
  return fsgOf(begin, heard.length, Math.exp(-dearer / GRAMMAR_WEIGHT));
}

/** States of a grammar while it is written: what leads on from each, by which those with the same are one. */
class Merged {
  readonly #rests: (readonly string[])[] = [[]];
  readonly #byRest = new Map<string, number>();
  /** The one where sentences end. */
  readonly end = 0;

  /** The state from which just these ways lead on, each the number of the state it leads to, its weight and its word. */
  stateOf(ways: readonly string[]): number {
    const rest = ways.join("\n");
    const state = this.#byRest.get(rest) ?? this.#rests.push(ways) - 1;
    this.#byRest.set(rest, state);
    return state;
  }

  text(start: number): string {
    const head = ["FSG_BEGIN rivals", `NUM_STATES ${this.#rests.length}`, `START_STATE ${start}`, `FINAL_STATE ${this.end}`];
    const lines = this.#rests.flatMap((ways, from) => ways.map((way) => `TRANSITION ${from} ${way}`));
    return [...head, ...lines, "FSG_END", ""].join("\n");
  }
}

/**
 * Only nodes from which the end can be reached, those with the same rest as one: each state takes its time. `share` is what is left of the
 * weight of an end that is not wanted. No sentence comes through a node twice: all that loops in the grammar is speech by its sounds.
 */
function fsgOf(begin: Node, length: number, share: number): string | undefined {
  const merged = new Merged();
  const numbers = new Map<Node, number | undefined>();
  const numberOf = (node: Node): number | undefined => {
    if (numbers.has(node)) return numbers.get(node);
    const ways: string[] = [];
    for (const { word, weight, to } of node.arcs) {
      const next = numberOf(to);
      if (next !== undefined) ways.push(`${next} ${weightText(weight)}${word === undefined ? "" : ` ${word}`}`);
    }
    const end = node.at === length ? node.state.final * (node.unwanted?.whole === true ? share : 1) : 0;
    if (end > 0) ways.push(`${merged.end} ${end.toPrecision(4)}`);
    const number = ways.length === 0 ? undefined : merged.stateOf(ways);
    numbers.set(node, number);
    return number;
  };
  const first = numberOf(begin);
  return first === undefined ? undefined : merged.text(first);
}
